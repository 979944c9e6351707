import type { CarState, LayerState, RepairState, VisitState } from '../car.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import type { FinishedRepair } from '../estimate/finished-repair.ts'
import { bandFault, repairBand, type RepairBand, type RepairToEstimate } from '../estimate/repair-band.ts'
import { repairToEstimate, withoutOpenGates } from '../estimate/repair-to-estimate.ts'
import type { ThreePoint } from '../facts/shapes.ts'
import { GATES } from '../gates.ts'
import { isDone, isFinished } from '../rules/standing.ts'
import type { LikelyHours } from '../text/likely-words.ts'
import { mm } from '../text/words.ts'
import type { EstimateRepairView, EstimateState, HiddenLayerView } from './estimate-shapes.ts'
import { kindWords, layerCountWords } from './estimate-words.ts'
import { type FirstBand, firstBand } from './estimate-first.ts'
import { sectionView } from './section-view.ts'
import type { SectionView } from './shared-views.ts'
import { stampName, type ViewContext } from './view-context.ts'
import { zoneWords } from './work-words.ts'

/** What all repairs of one estimate are looked at with. */
export interface EstimateContext {
  readonly car: CarState
  readonly visit: VisitState
  readonly view: ViewContext
  /** Finished repairs of the workshop, in the order of finishing. */
  readonly finished: readonly FinishedRepair[]
  readonly history: EstimateHistory
}

/** A repair of the estimate, as it is shown and as it goes into the band of the whole car. */
export interface EstimatedRepair {
  readonly shown: EstimateRepairView
  readonly now: RepairBand | null
  /** Before it was opened. */
  readonly first: FirstBand | null
}

/** One repair before and after it is opened. */
export function estimateRepair(repair: RepairState, context: EstimateContext): EstimatedRepair {
  const type = typeName(repair, context)
  const state = stateOf(repair)
  const known = repairToEstimate(context.car, repair, countedKind(repair, type, context), context.view)
  const stands = state === 'closed as found' ? withoutOpenGates(known) : known
  const isOver = state === 'finished' || state === 'closed as found'
  const now = repairBand(context.history, stands)
  const first =
    state === 'before opening' ? now : firstBand(repair, stands, context.finished, context.history)
  const layers = layerViews(repair, type, context)
  const { name, zone, loadBearing } = repair.plan
  return {
    now,
    first,
    shown: {
      id: repair.id,
      name,
      type,
      zone: zoneWords(zone),
      loadBearing,
      state,
      outside: outsideView(repair, context),
      agreed: sumOf(stands, 'assessed'),
      isAccepted: isAccepted(repair, context),
      baseline: sumOf(stands, 'before'),
      points: sumOfPoints(GATES.map((gate) => stands.gates[gate].points)),
      layers,
      band: isOver || now === null ? null : likelyOf(now),
      first: state === 'before opening' || first === null ? null : likelyOf(first),
      took: isOver ? sumOf(stands, 'spent') : null,
      rests: isOver || now === null ? [] : restsOf(now, layers),
      problem: isOver ? null : bandFault(stands),
      section: estimateSection(repair, context),
    },
  }
}

export const likelyOf = ({ hours: { p50, p80 } }: { readonly hours: LikelyHours }): LikelyHours => ({
  p50,
  p80,
})

export function sumOfPoints(parts: readonly ThreePoint[]): ThreePoint {
  const sum = (point: keyof ThreePoint): number => parts.reduce((total, part) => total + part[point], 0)
  return { shortest: sum('shortest'), likely: sum('likely'), longest: sum('longest') }
}

/** As its band's words count them: those with the same grade outside. */
function countedKind(
  { typeId, outside }: RepairState,
  type: string | null,
  { history }: EstimateContext,
): string {
  return kindWords(type, history.worstOf(typeId, outside?.grade ?? null).seen)
}

/** What is said of a hidden layer is not said again of the worst one, and of the only layer they are the same. */
function restsOf({ words }: RepairBand, layers: readonly HiddenLayerView[]): readonly string[] {
  const isOnly = layers.length === 1 && layers[0]?.likely !== null
  return words.filter(
    (each, index) => !(isOnly && index === 0) && layers.every((layer) => layer.words !== each),
  )
}

function sumOf({ gates }: RepairToEstimate, figure: 'before' | 'assessed' | 'spent'): number {
  return GATES.reduce((sum, gate) => sum + gates[gate][figure], 0)
}

function stateOf(repair: RepairState): EstimateState {
  if (repair.closedAsFound !== null) return 'closed as found'
  if (isFinished(repair)) return 'finished'
  const isBegun = GATES.some((gate) => gate !== 'opened' && gate !== 'assessed' && isDone(repair, gate))
  if (isBegun) return 'in work'
  if (isDone(repair, 'assessed')) return 'assessed'
  return isDone(repair, 'opened') ? 'opened' : 'before opening'
}

const typeName = ({ typeId }: RepairState, { view: { workshop } }: EstimateContext): string | null =>
  typeId === null ? null : (workshop.types.get(typeId)?.plan.name ?? null)

function isAccepted({ id }: RepairState, { visit }: EstimateContext): boolean {
  const own = [...visit.lines.values()].filter(
    ({ target }) => target.kind === 'gate' && target.repairId === id,
  )
  return own.length > 0 && own.every(({ accepted }) => accepted !== null)
}

function outsideView({ outside }: RepairState, { view }: EstimateContext): EstimateRepairView['outside'] {
  if (outside === null) return null
  const { grade, note, stamp } = outside
  return { grade, note, by: stampName(stamp, view.nameOf), at: stamp.happened }
}

function layerViews(
  repair: RepairState,
  type: string | null,
  { history }: EstimateContext,
): readonly HiddenLayerView[] {
  const plans = repair.plan.layers.slice(0, -1)
  return plans.map(({ layerId, name }) => {
    const layer = repair.layers.get(layerId)
    if (layer !== undefined && layer.grade !== null)
      return { id: layerId, name, found: layer.grade, likely: null, words: foundWords(layer) }
    const grades = history.layerOf(repair.typeId, name, repair.outside?.grade ?? null)
    const likely = grades.grades.map(({ grade, likelihood, found }) => ({
      grade,
      share: likelihood.mean,
      found,
      seen: grades.seen,
    }))
    const words = layerCountWords(grades, type, plans.length === 1 ? null : name)
    return { id: layerId, name, found: null, likely, words }
  })
}

function foundWords({ grade, judgedBy, remainingMm }: LayerState): string {
  if (grade === 'not seen') return judgedBy === null ? 'Not seen.' : `Not seen; judged ${judgedBy}.`
  const left = remainingMm === null ? '' : `, ${mm(remainingMm)} left`
  return `Found ${grade}${left}.`
}

/** As it may be drawn before it is opened: what was seen from outside stands on the outermost layer. */
function estimateSection(repair: RepairState, { car }: EstimateContext): SectionView {
  const section = sectionView(car, repair)
  const { outside } = repair
  if (outside === null) return section
  return {
    ...section,
    layers: section.layers.map((layer) =>
      layer.closing && layer.grade === null ? { ...layer, grade: outside.grade, state: 'found' } : layer,
    ),
  }
}
