import type { SectionLayer, SectionView } from '../../views/shared-views.ts'
import { mm, plural, rounded } from '../../text/words.ts'

/** What stands beside a layer in its section: '1.2 mm, pitted, 0.7 mm left, to be patched'. */
export function layerWords(layer: SectionLayer, isOff: boolean): string {
  return [
    ...(isOff ? ['off'] : []),
    thickness(layer.thicknessMm),
    ...foundWords(layer),
    ...workWords(layer),
    ...(layer.state === 'closed over' ? ['closed over'] : []),
  ].join(', ')
}

/** The whole section read from the inside out. */
export function sectionWords(section: SectionView): string {
  const layers = section.layers.map(
    (layer) => `${layer.name}, ${layerWords(layer, isPanelOff(section, layer))}`,
  )
  const seams = section.sealed ? ['Seams sealed'] : []
  return [
    `Cut through ${plural('layer', layers.length)}, from the inside out: ${layers.join('; ')}`,
    ...seams,
  ]
    .map((sentence) => `${sentence}.`)
    .join(' ')
}

/** What the lines and colours of this section mean; only of what is in it. */
export function sectionLegend(section: SectionView): string {
  const { layers } = section
  const some = (isSo: (layer: SectionLayer) => boolean): boolean => layers.some(isSo)
  const isNew = (layer: SectionLayer) =>
    isPutRight(layer) && (layer.decision === 'replace' || layer.decision === 'patch')
  const isRusty = (layer: SectionLayer) => !isPutRight(layer) && !isUnknown(layer) && layer.grade !== 'sound'
  const dashed = [
    ...(some((layer) => isPanelOff(section, layer)) ? ['off'] : []),
    ...(some((layer) => isUnknown(layer) && !isPutRight(layer)) ? ['not seen'] : []),
    ...(some((layer) => layer.grade === 'gone' && !isPutRight(layer)) ? ['gone'] : []),
  ]
  return [
    some(isNew) ? 'Hatching is cut metal, hatched the other way where it is new' : 'Hatching is cut metal',
    ...(dashed.length > 0 ? [`dashed: ${dashed.join(' or ')}`] : []),
    ...(some(isRusty) ? ['brown: rust'] : []),
    ...(section.sealed ? ['ochre: sealer'] : []),
    ...(some((layer) => layer.state === 'coated') || section.primed ? ['green: primer'] : []),
    ...(section.painted ? ['blue-green: outer coat'] : []),
    ...(some((layer) => layer.loadBearing) ? ['heavy line: load-bearing'] : []),
    'thickness enlarged',
  ].join('; ')
}

/** The closing panel is away while the repair stands open; a repair of one sheet has nothing to take off. */
export function isPanelOff(section: SectionView, layer: SectionLayer): boolean {
  return section.open && layer.closing && section.layers.length > 1
}

/** Metal was made or cleaned: the drawing shows the work, no longer the damage. */
export const isPutRight = ({ state }: SectionLayer): boolean => state !== 'not seen yet' && state !== 'found'

/** Nobody has seen the layer, whatever was judged about it. */
export const isUnknown = ({ grade }: SectionLayer): boolean => grade === null || grade === 'not seen'

/** '1.2 mm', '2 mm', '0.75 mm': sheet thickness as it is ordered. */
function thickness(millimetres: number): string {
  const decimals = [0, 1].find((count) => rounded(millimetres, count) === rounded(millimetres, 2)) ?? 2
  return mm(millimetres, decimals)
}

const FOUND = { sound: 'sound', surface: 'surface rust', pitted: 'pitted', holed: 'holed', gone: 'gone' }
const WAS = {
  sound: 'was sound',
  surface: 'had surface rust',
  pitted: 'was pitted',
  holed: 'was holed',
  gone: 'was gone',
}

function foundWords(layer: SectionLayer): readonly string[] {
  const { grade, judgedBy, remainingMm, decision } = layer
  if (grade === null) return ['not seen yet']
  if (grade === 'not seen') return [judgedBy === null ? 'not seen' : `not seen, judged by ${judgedBy}`]
  if (isPutRight(layer) && decision !== 'keep') return [WAS[grade]]
  return remainingMm === null ? [FOUND[grade]] : [FOUND[grade], `${thickness(remainingMm)} left`]
}

const DECIDED = { keep: 'kept', treat: 'to be treated', patch: 'to be patched', replace: 'to be replaced' }
const DONE = { keep: 'kept', treat: 'treated', patch: 'patched', replace: 'replaced' }

function workWords(layer: SectionLayer): readonly string[] {
  const { decision, state } = layer
  if (decision === null) return state === 'coated' ? ['primed'] : []
  if (!isPutRight(layer)) return [DECIDED[decision]]
  return state === 'coated' ? [DONE[decision], 'primed'] : [DONE[decision]]
}
