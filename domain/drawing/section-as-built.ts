import type { SectionLayer, SectionView } from '../views/shared-views.ts'

type Sheet = Pick<SectionLayer, 'id' | 'name' | 'thicknessMm' | 'loadBearing' | 'closing' | 'grade'>

/** A section that nobody has worked on: closed, without sealer, primer and paint, nothing judged, decided or photographed. */
export function sectionAsBuilt(sheets: readonly Sheet[]): SectionView {
  return {
    layers: sheets.map((sheet) => ({
      ...sheet,
      judgedBy: null,
      remainingMm: null,
      decision: null,
      state: 'found',
      photographed: false,
    })),
    open: false,
    sealed: false,
    primed: false,
    painted: false,
  }
}
