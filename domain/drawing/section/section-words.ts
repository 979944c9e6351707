import { english } from '../../language/english.ts'
import type { OwnerLanguage } from '../../language/owner-language.ts'
import type { SectionLayer, SectionView } from '../../views/shared-views.ts'
import { rounded } from '../../text/words.ts'

/** What stands beside a layer in its section: '1.2 mm, pitted, 0.7 mm left, to be patched'. */
export function layerWords(layer: SectionLayer, isOff: boolean, say: OwnerLanguage = english): string {
  const { drawing } = say
  return [
    ...(isOff ? [drawing.off] : []),
    thickness(say, layer.thicknessMm),
    ...foundWords(say, layer),
    ...workWords(say, layer),
    ...(layer.state === 'closed over' ? [drawing.closedOver] : []),
  ].join(', ')
}

/** The whole section read from the inside out. */
export function sectionWords(section: SectionView, say: OwnerLanguage = english): string {
  const layers = section.layers.map(
    (layer) => `${layer.name}, ${layerWords(layer, isPanelOff(section, layer), say)}`,
  )
  return [say.drawing.cut(layers), ...(section.sealed ? [say.drawing.seamsSealed] : [])].join(' ')
}

/** What the lines and colours of this section mean; only of what is in it. */
export function sectionLegend(section: SectionView, say: OwnerLanguage = english): string {
  const { layers } = section
  const { legend } = say.drawing
  const some = (isSo: (layer: SectionLayer) => boolean): boolean => layers.some(isSo)
  const isNew = (layer: SectionLayer) =>
    isPutRight(layer) && (layer.decision === 'replace' || layer.decision === 'patch')
  const isRusty = (layer: SectionLayer) => !isPutRight(layer) && !isUnknown(layer) && layer.grade !== 'sound'
  const dashed = [
    ...(some((layer) => isPanelOff(section, layer)) ? ['off' as const] : []),
    ...(some((layer) => isUnknown(layer) && !isPutRight(layer)) ? ['not seen' as const] : []),
    ...(some((layer) => layer.grade === 'gone' && !isPutRight(layer)) ? ['gone' as const] : []),
  ]
  return [
    some(isNew) ? legend.hatchingNew : legend.hatching,
    ...(dashed.length > 0 ? [legend.dashed(dashed)] : []),
    ...(some(isRusty) ? [legend.rust] : []),
    ...(section.sealed ? [legend.sealer] : []),
    ...(some((layer) => layer.state === 'coated') || section.primed ? [legend.primer] : []),
    ...(section.painted ? [legend.outerCoat] : []),
    ...(some((layer) => layer.loadBearing) ? [legend.loadBearing] : []),
    legend.enlarged,
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
function thickness({ figures }: OwnerLanguage, millimetres: number): string {
  const decimals = ([0, 1] as const).find((count) => rounded(millimetres, count) === rounded(millimetres, 2))
  return figures.mm(millimetres, decimals ?? 2)
}

function foundWords(say: OwnerLanguage, layer: SectionLayer): readonly string[] {
  const { drawing } = say
  const { grade, judgedBy, remainingMm, decision } = layer
  if (grade === null) return [drawing.notSeenYet]
  if (grade === 'not seen') return [judgedBy === null ? drawing.notSeen : drawing.judgedBy(judgedBy)]
  if (isPutRight(layer) && decision !== 'keep') return [drawing.was[grade]]
  return remainingMm === null
    ? [drawing.is[grade]]
    : [drawing.is[grade], drawing.left(thickness(say, remainingMm))]
}

function workWords({ drawing }: OwnerLanguage, layer: SectionLayer): readonly string[] {
  const { decision, state } = layer
  if (decision === null) return state === 'coated' ? [drawing.primed] : []
  if (!isPutRight(layer)) return [drawing.decided[decision]]
  return state === 'coated' ? [drawing.done[decision], drawing.primed] : [drawing.done[decision]]
}
