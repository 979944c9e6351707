import type { TaskState, VisitState } from '../car.ts'
import { type CarBand, carBand, type TaskToEstimate, USUAL_DRAWS } from '../estimate/car-band.ts'
import { PAYERS, type WorkTarget } from '../facts/shapes.ts'
import { agreedHours } from '../money/agreed-hours.ts'
import { bandSentence } from '../text/likely-words.ts'
import { plural } from '../text/words.ts'
import { visitFigures } from '../value/hours.ts'
import { targetKey } from '../value/target.ts'
import type { FirstBand } from './estimate-first.ts'
import { type EstimateContext, type EstimatedRepair, likelyOf, sumOfPoints } from './estimate-repair.ts'
import type { EstimateTaskView, MoverView, PayerSumView, WholeEstimateView } from './estimate-shapes.ts'
import { repairMoverWords, taskMoverWords } from './estimate-words.ts'

export interface EstimatedTask {
  readonly shown: EstimateTaskView
  readonly task: TaskToEstimate
}

/** Tasks of the visit, by their lines; one without any by its plan. */
export function estimateTasks({ car, visit, view }: EstimateContext): readonly EstimatedTask[] {
  const figures = visitFigures(car, visit.id, view)
  return [...car.tasks.values()]
    .filter(({ visitId, status }) => visitId === visit.id && status !== 'not needed')
    .map((task) => {
      const shown = taskView(task, visit)
      const { points, isDone } = shown
      const target: WorkTarget = { kind: 'task', taskId: task.id }
      const spent = figures.get(targetKey(target))?.hours.spent ?? 0
      return { shown, task: { taskId: task.id, points, isDone, spent } }
    })
}

function taskView({ id, plan, status }: TaskState, visit: VisitState): EstimateTaskView {
  const lines = [...visit.lines.values()].filter(
    ({ target }) => target.kind === 'task' && target.taskId === id,
  )
  return {
    id,
    name: plan.name,
    agreed: lines.reduce((sum, { agreed, moved }) => sum + agreed + moved, 0),
    baseline: lines.reduce((sum, { baseline }) => sum + baseline.agreed, 0),
    points: lines.length === 0 ? plan.hours : sumOfPoints(lines.map((line) => line.hours)),
    isDone: status === 'passed',
  }
}

/** The car's band now, and with every repair as it was before it was opened. */
export function carBands(
  repairs: readonly EstimatedRepair[],
  tasks: readonly EstimatedTask[],
  { history }: EstimateContext,
): { readonly now: CarBand | null; readonly first: CarBand | null } {
  const bandOf = (which: (repair: EstimatedRepair) => FirstBand | null): CarBand | null => {
    const work = repairs.flatMap((repair) => {
      const band = which(repair)
      return band === null ? [] : [{ repairId: repair.shown.id, band }]
    })
    const band = carBand(
      { repairs: work, tasks: tasks.map(({ task }) => task) },
      { correlation: history.correlation, ...USUAL_DRAWS },
    )
    return band === null || !(band.hours.p80 > 0) ? null : band
  }
  const isAnyOpened = repairs.some(({ shown }) => shown.state !== 'before opening')
  return { now: bandOf(({ now }) => now), first: isAnyOpened ? bandOf(({ first }) => first) : null }
}

/** @param finished the workshop's finished repairs */
export function wholeView(
  { now, first }: { readonly now: CarBand | null; readonly first: CarBand | null },
  repairs: readonly EstimatedRepair[],
  tasks: readonly EstimatedTask[],
  payers: readonly PayerSumView[],
  finished: number,
): WholeEstimateView {
  const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0)
  const left = [...repairs, ...tasks].length
  return {
    agreed: sum([...repairs, ...tasks].map(({ shown }) => shown.agreed)),
    accepted: sum(payers.map(({ accepted }) => accepted)),
    waiting: sum(payers.map(({ waiting }) => waiting)),
    asked: sum(payers.map(({ asked }) => asked)),
    band: now === null ? null : likelyOf(now),
    first: first === null ? null : likelyOf(first),
    words: now === null ? NO_BAND : bandSentence(now.hours),
    rests: now === null || left === 0 ? [] : [restsWords(finished)],
  }
}

const NO_BAND = 'Nothing is estimated yet.'

const restsWords = (finished: number): string =>
  finished === 0
    ? 'No repair is finished here yet: the bands rest on the usual prior, and get this workshop’s own figures with every repair that is finished.'
    : `The bands are learned from ${plural('finished repair', finished)} of this workshop.`

/** Fewer hours of doubt than this share of all move nothing that matters. */
const LEAST_SHARE = 0.02
const MOST_MOVERS = 5

/** Below it the car's two figures are the same, and shares of their difference say nothing. */
const LEAST_DOUBT = 0.05

/** What moves the hours most, the largest first. */
export function moverViews(
  { movers, hours }: CarBand,
  repairs: readonly EstimatedRepair[],
  tasks: readonly EstimatedTask[],
): readonly MoverView[] {
  if (hours.p80 - hours.p50 < LEAST_DOUBT) return []
  return movers
    .filter(({ share }) => share >= LEAST_SHARE)
    .slice(0, MOST_MOVERS)
    .flatMap((mover): readonly MoverView[] => {
      const { share } = mover
      if (mover.kind === 'repair') {
        const repair = repairs.find(({ shown }) => shown.id === mover.repairId)?.shown
        if (repair === undefined) return []
        return [{ repairId: repair.id, name: repair.name, share, words: repairMoverWords(repair) }]
      }
      const task = tasks.find(({ shown }) => shown.id === mover.taskId)?.shown
      return task === undefined
        ? []
        : [{ repairId: null, name: task.name, share, words: taskMoverWords(task) }]
    })
}

/** What each payer has accepted and what waits for it; work that fell away counts nowhere. */
export function payerSums(context: EstimateContext): readonly PayerSumView[] {
  const { car, visit, view } = context
  const raised = [...car.variations.values()].filter(
    ({ visitId, status }) => visitId === visit.id && status === 'raised',
  )
  const isCounted = countedTargets(context)
  const counted = [...agreedHours(car, visit, view.workshop.zone).values()]
    .flat()
    .filter(({ target }) => isCounted(target))
  return PAYERS.flatMap((payer) => {
    const own = counted.filter((each) => each.payer === payer)
    if (own.length === 0) return []
    const open = sumHours(own.filter(({ agreed }) => agreed === null))
    const asked = sumHours(
      raised
        .filter((each) => each.payer === payer)
        .flatMap(({ lines }) => lines.filter(({ target }) => isCounted(target))),
    )
    const waitingLines = [...visit.lines.values()].filter(
      (line) => line.payer === payer && line.accepted === null && isCounted(line.target),
    )
    const accepted = sumHours(own) - open
    return [{ payer, accepted, waiting: open - asked, asked, waitingLines: waitingLines.length }]
  })
}

/** Open or passed: what was not needed or left as found has given its hours back. */
function countedTargets({ car, visit, view }: EstimateContext): (target: WorkTarget) => boolean {
  const figures = visitFigures(car, visit.id, view)
  return (target) => {
    const standing = figures.get(targetKey(target))?.standing
    return standing === 'open' || standing === 'passed'
  }
}

const sumHours = (parts: readonly { readonly hours: number }[]): number =>
  parts.reduce((total, { hours }) => total + hours, 0)
