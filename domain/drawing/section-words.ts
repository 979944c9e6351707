import type { SectionLayer, SectionView } from '../views/shared-views.ts'
import { fixed, plural } from '../text/words.ts'

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

/** The closing panel is away while the repair stands open; a repair of one sheet has nothing to take off. */
export function isPanelOff(section: SectionView, layer: SectionLayer): boolean {
  return section.open && layer.closing && section.layers.length > 1
}

/** Metal was made or cleaned: the drawing shows the work, no longer the damage. */
export const isPutRight = ({ state }: SectionLayer): boolean => state !== 'not seen yet' && state !== 'found'

/** Nobody has seen the layer, whatever was judged about it. */
export const isUnknown = ({ grade }: SectionLayer): boolean => grade === null || grade === 'not seen'

/** '1.2 mm', '2 mm': sheet thickness as it is ordered. */
function thickness(millimetres: number): string {
  return `${fixed(millimetres, Number.isInteger(millimetres) ? 0 : millimetres * 10 === Math.round(millimetres * 10) ? 1 : 2)} mm`
}

function foundWords({ grade, judgedBy, remainingMm }: SectionLayer): readonly string[] {
  if (grade === null) return ['not seen yet']
  if (grade === 'not seen') return [judgedBy === null ? 'not seen' : `not seen, judged by ${judgedBy}`]
  return remainingMm === null ? [grade] : [grade, `${thickness(remainingMm)} left`]
}

const DECIDED = {
  keep: 'to be kept',
  treat: 'to be treated',
  patch: 'to be patched',
  replace: 'to be replaced',
}
const DONE = { keep: 'kept', treat: 'treated', patch: 'patched', replace: 'replaced' }

function workWords(layer: SectionLayer): readonly string[] {
  const { decision, state } = layer
  if (decision === null) return []
  if (!isPutRight(layer)) return [decision === 'keep' ? DONE.keep : DECIDED[decision]]
  return state === 'coated' ? [DONE[decision], 'primed'] : [DONE[decision]]
}
