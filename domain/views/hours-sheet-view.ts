import type { CarState, RepairState, TaskState, VisitState } from '../car.ts'
import type { EstimateHistory } from '../estimate/estimate-history.ts'
import { PAYERS, type Payer, type WorkTarget } from '../facts/shapes.ts'
import { gateOrder } from '../gates.ts'
import { agreedHours } from '../money/agreed-hours.ts'
import { plural } from '../text/words.ts'
import { entryHours } from '../value/entry-hours.ts'
import {
  addHours,
  hoursIndex,
  hoursVariance,
  noHours,
  type TargetFigures,
  visitFigures,
} from '../value/hours.ts'
import { hoursToGo } from '../value/hours-to-go.ts'
import { targetKey, targetStanding } from '../value/target.ts'
import { stretchDate, stretchesOn } from '../watch/stretches.ts'
import { carAttention } from './attention-view.ts'
import { currentVisit } from './car-header.ts'
import {
  type BandPiece,
  bandOfPieces,
  bandOfRepair,
  onlyBand,
  pieceShare,
  repairPiece,
  targetBand,
  taskPiece,
} from './hours-bands.ts'
import { type PayerPart, payerParts } from './hours-payers.ts'
import type {
  GateHours,
  HoursBand,
  HoursEntry,
  HoursFigures,
  HoursSheetView,
  PayerHours,
  WorkHours,
} from './hours-sheet-shapes.ts'
import { leftView } from './left-view.ts'
import type { HoursPair } from './shared-views.ts'
import { createViewContext, type ViewContext, type ViewInput } from './view-context.ts'

export interface HoursSheetInput extends ViewInput {
  readonly car: CarState
  readonly history: EstimateHistory
}

/** The hours of a car's current visit: the whole, by payer, by repair and task, by gate, and down to the entries. */
export function hoursSheetView({ car, history, ...input }: HoursSheetInput): HoursSheetView {
  const view = createViewContext(input)
  const attention = carAttention(car, view)
  const visit = currentVisit(car)
  if (visit === null) return { now: view.at, attention, total: NOTHING, payers: [], works: [], rests: '' }
  const works = worksOf(reckoned(car, visit, history, view))
  const pieces = works.map(({ piece }) => piece)
  const targets = works.flatMap((work) => work.targets)
  return {
    now: view.at,
    attention,
    total: { ...sumOfTargets(targets), band: bandOfPieces(pieces, history) },
    payers: payersOf(works, history),
    works: works.map(({ shown }) => shown),
    rests: restsWords(history),
  }
}

/**
 * What a visit takes as a whole, and the part of it that owner and insurer pay for. Person-hours with what is spent; null
 * where all is over.
 */
export function visitBands(
  car: CarState,
  visit: VisitState,
  history: EstimateHistory,
  view: ViewContext,
): { readonly all: HoursBand | null; readonly charged: HoursBand | null } {
  const works = worksOf(reckoned(car, visit, history, view))
  const charged = works.map(({ piece, targets }) => pieceShare(piece, 1 - shareIn(targets, 'workshop')))
  return {
    all: bandOfPieces(
      works.map(({ piece }) => piece),
      history,
    ),
    charged: bandOfPieces(charged, history),
  }
}

interface Reckoned {
  readonly car: CarState
  readonly visit: VisitState
  readonly history: EstimateHistory
  readonly view: ViewContext
  readonly figuresOf: (target: WorkTarget) => Target
}

/** A gate or task with all that is summed of it. */
interface Target {
  readonly figures: TargetFigures
  readonly expected: number
  readonly payers: readonly PayerPart[]
}

interface Work {
  readonly shown: WorkHours
  readonly targets: readonly Target[]
  readonly piece: BandPiece
}

function reckoned(car: CarState, visit: VisitState, history: EstimateHistory, view: ViewContext): Reckoned {
  const known = visitFigures(car, visit.id, view)
  const agreed = agreedHours(car, visit, view.workshop.zone)
  const figuresOf = (target: WorkTarget): Target => {
    const key = targetKey(target)
    const figures = known.get(key) ?? {
      target,
      standing: targetStanding(car, target),
      baseline: 0,
      hours: noHours,
    }
    return {
      figures,
      expected: figures.hours.spent + hoursToGo(car, visit, figures, view),
      payers: payerParts(car, figures, agreed.get(key) ?? []),
    }
  }
  return { car, visit, history, view, figuresOf }
}

/** Repairs and tasks of the visit, and others with a figure in it; a retired repair only when it has one. */
function worksOf(by: Reckoned): readonly Work[] {
  const { car, visit } = by
  const repairs = [...car.repairs.values()].flatMap((repair) => {
    const work = repairWork(repair, by)
    return (repair.visitId === visit.id && repair.retired === null) || hasFigures(work) ? [work] : []
  })
  const tasks = [...car.tasks.values()].flatMap((task) => {
    const work = taskWork(task, by)
    return task.visitId === visit.id || hasFigures(work) ? [work] : []
  })
  return [...repairs, ...tasks]
}

const hasFigures = ({ targets }: Work): boolean =>
  targets.some(
    ({ figures }) => figures.baseline !== 0 || Object.values(figures.hours).some((hours) => hours !== 0),
  )

function repairWork(repair: RepairState, by: Reckoned): Work {
  const { car, visit, history, view } = by
  const gates = gateOrder(repair.plan).map((gate) => ({
    gate,
    of: by.figuresOf({ kind: 'gate', repairId: repair.id, gate }),
  }))
  const targets = gates.map(({ of }) => of)
  const band = bandOfRepair(car, repair, visit, history, view)
  const sums = sumOfTargets(targets)
  return {
    targets,
    piece: repairPiece(repair.id, band, sums.expected),
    shown: {
      ...sums,
      band: onlyBand(band),
      key: repair.id,
      repairId: repair.id,
      taskId: null,
      name: repair.plan.name,
      baseline: baselineOf(targets),
      payers: payersIn(targets),
      gates: gates.map(({ gate, of }): GateHours => {
        const { status } = repair.gates[gate]
        return { ...targetLine(of, by), gate, status }
      }),
      entries: [],
    },
  }
}

function taskWork({ id, plan }: TaskState, by: Reckoned): Work {
  const target = by.figuresOf({ kind: 'task', taskId: id })
  const { left: _left, ...line } = targetLine(target, by)
  return {
    targets: [target],
    piece: taskPiece(by.car, id, target.figures),
    shown: {
      ...line,
      key: id,
      repairId: null,
      taskId: id,
      name: plan.name,
      payers: payersIn([target]),
      gates: [],
    },
  }
}

function targetLine(target: Target, { car, view }: Reckoned) {
  const { figures } = target
  return {
    ...sumOfTargets([target]),
    band: targetBand(car, figures, view),
    baseline: figures.baseline,
    left: leftView(car, figures.target, view)?.hours ?? null,
    entries: entriesOf(car, figures.target, view),
  }
}

function entriesOf(car: CarState, target: WorkTarget, view: ViewContext): readonly HoursEntry[] {
  return stretchesOn(car, target, view)
    .map((stretch): HoursEntry => {
      const { entry, hours, rework } = stretch
      const { id, personId, time, confirmed, by } = entry
      return {
        entryId: id,
        person: view.nameOf(personId),
        date: stretchDate(stretch, view),
        start: time.kind === 'day' ? null : Date.parse(time.start),
        end: time.kind === 'span' ? Date.parse(time.end) : null,
        hours,
        ofHours: entryHours(entry, view),
        running: time.kind === 'running',
        confirmed,
        byHand: by === 'hand',
        rework,
      }
    })
    .toReversed()
}

type Sums = Omit<HoursFigures, 'band'>

const sumOfTargets = (targets: readonly Target[]): Sums =>
  toSums(
    addHours(targets.map(({ figures }) => figures.hours)),
    targets.reduce((sum, { expected }) => sum + expected, 0),
  )

const toSums = (hours: HoursPair, expected: number): Sums => ({
  hours,
  expected,
  variance: hoursVariance(hours),
  index: hoursIndex(hours),
})

const NOTHING: HoursFigures = { ...toSums(noHours, 0), band: null }

const baselineOf = (targets: readonly Target[]): number =>
  targets.reduce((sum, { figures }) => sum + figures.baseline, 0)

const payersIn = (targets: readonly Target[]): readonly Payer[] =>
  PAYERS.filter((payer) =>
    targets.some((target) => target.payers.some((part) => part.payer === payer && isAny(part))),
  )

const isAny = ({ hours }: PayerPart): boolean => Object.values(hours).some((value) => value !== 0)

function payersOf(works: readonly Work[], history: EstimateHistory): readonly PayerHours[] {
  return PAYERS.flatMap((payer) => {
    const targets = works.flatMap((work) => work.targets)
    const own = targets.flatMap(({ expected, payers }) =>
      payers.flatMap((part) => (part.payer === payer ? [{ part, expected }] : [])),
    )
    if (!own.some(({ part }) => isAny(part))) return []
    const sums = toSums(
      addHours(own.map(({ part }) => part.hours)),
      own.reduce((sum, { part, expected }) => sum + expected * part.share, 0),
    )
    return [{ payer, ...sums, band: payerBand(payer, works, history) }]
  })
}

/** Each piece by the payer's share of the hours that it is estimated at, or has taken. */
function payerBand(payer: Payer, works: readonly Work[], history: EstimateHistory): HoursBand | null {
  const pieces = works.flatMap(({ piece, targets }) => {
    const share = shareIn(targets, payer)
    return share > 0 ? [pieceShare(piece, share)] : []
  })
  return bandOfPieces(pieces, history)
}

function shareIn(targets: readonly Target[], payer: Payer): number {
  const weigh = ({ figures: { hours }, expected }: Target) =>
    Math.max(expected, hours.authorised + hours.waiting)
  const all = targets.reduce((sum, target) => sum + weigh(target), 0)
  if (all === 0) return 0
  const own = targets.reduce((sum, target) => {
    const share = target.payers.find((part) => part.payer === payer)?.share ?? 0
    return sum + share * weigh(target)
  }, 0)
  return own / all
}

function restsWords({ repairs }: EstimateHistory): string {
  const from =
    repairs === 0 ? 'the usual spread, as no repair is finished yet' : plural('finished repair', repairs)
  return `Likely runs from what such work stays under half the time to what it stays under four times in five. It counts what waits for an answer too, and rests on ${from}.`
}
