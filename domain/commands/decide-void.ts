import type { CarState } from '../car.ts'
import { fact, type Fact, type FactKind } from '../facts.ts'
import { PART_FOLLOWS } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { membersNotReady } from '../rules/fit-holds.ts'
import { gateHolds, standing, taskHolds } from '../rules/holds.ts'
import { closingHolds, uncoverHolds } from '../rules/order-holds.ts'
import { standingFaults } from '../rules/standing.ts'
import { advanceCar, carFromFacts } from '../state/car-state.ts'
import { voidedNumbers } from '../state/fact-stamp.ts'
import type { WorkshopState } from '../workshop.ts'
import type { Decided, DecideContext } from './decide.ts'
import { record, type Decider, type Refused } from './deciders.ts'
import { findLayer, gradeRefusal, markRefusal } from './layer-refusals.ts'

/** What may be voided; links are unlinked, repairs retired, bookings cancelled, and what was undone is reopened. */
const VOIDABLE: ReadonlySet<FactKind> = new Set<FactKind>([
  'gatePassed',
  'gateNotNeeded',
  'gateReopened',
  'holdReleased',
  'releaseAsked',
  'photoAttached',
  'hoursTaken',
  'outsideGraded',
  'layerGraded',
  'layersMarked',
  'findingAdded',
  'conditionsRead',
  'drainsChecked',
  'weldsCounted',
  'fitUpRecorded',
  'surfacePrepared',
  'partMoved',
  'taskSigned',
  'taskNotNeeded',
  'dimensionRead',
  'estimateAccepted',
  'estimateReviewed',
  'variationRaised',
  'variationDecided',
  'closedAsFound',
  'costTakenOff',
  'costSpent',
  'clockStarted',
  'timeLogged',
  'watchCompleted',
  'noted',
  'leftSaid',
])

/** Whether facts of this kind are voided at all; a later fact may need one all the same. */
export const isVoidable = (kind: FactKind): boolean => VOIDABLE.has(kind)

export const voidDeciders: { readonly voidFact: Decider<'voidFact'> } = {
  voidFact: (payload, context) => {
    const target = context.history.find((each) => each.number === payload.number)
    if (!target) return refuse('unknown', 'This line of the record is not known.', 'Reload the record.')
    if (target.number < (context.car?.broughtIn?.stamp.number ?? 0)) return recordedElsewhere
    if (context.history.some((each) => each.kind === 'factVoided' && each.payload.number === payload.number))
      return refuse('already', 'This line is voided already.', 'Nothing to do.')
    if (!isVoidable(target.kind))
      return refuse(
        'not-allowed',
        'This kind of fact cannot be voided.',
        'Undo it by its own action, with a reason.',
      )
    const needed = neededBy(target, context)
    return needed.ok ? record(fact('factVoided', payload)) : needed
  },
}

const recordedElsewhere = refuse(
  'not-allowed',
  'This was recorded in another workshop and stays as it came.',
  'Add a note, or reopen the gate with a reason.',
)

/**
 * A void is refused while a later accepted fact needs what is voided, and says which. The later facts are judged twice,
 * with and without it: what was free and would now be held needs it.
 * Cost: two folds of the car and two judgements of each later gate.
 */
const neededBy = (target: Fact, context: DecideContext): Result<null> | Result<Decided> => {
  const voided = voidedNumbers(context.history)
  const counting = context.history.filter((each) => !voided.has(each.number) && each.kind !== 'factVoided')
  const before = counting.filter((each) => each.number < target.number)
  const later = counting.filter((each) => each.number > target.number)
  const named = later.find((each) => refersTo(each, target))
  if (named) return refuseNeeded(named)
  const withIt = carFromFacts([...before, target])
  const without = carFromFacts(before)
  if (!withIt || !without) return ok(null)
  for (const next of later) {
    const already = new Set(problemsOf(next, withIt, context.workshop))
    if (problemsOf(next, without, context.workshop).some((problem) => !already.has(problem)))
      return refuseNeeded(next)
    advanceCar(withIt, [next])
    advanceCar(without, [next])
  }
  const standingNow = new Set(standingFaults(withIt).map((fault) => fault.words))
  const fault = standingFaults(without).find((each) => !standingNow.has(each.words))
  return fault
    ? refuse('needed-later', `Without it a fault would stand: ${fault.words}.`, 'Undo that first.')
    : ok(null)
}

const refuseNeeded = (later: Fact): Result<Decided> =>
  refuse(
    'needed-later',
    `Line ${later.number} of the record (${factWords(later)}) needs it.`,
    'Void or reopen that first.',
  )

const factWords = (later: Fact): string => {
  switch (later.kind) {
    case 'gatePassed':
      return `${later.payload.gate} passed`
    case 'gateReopened':
      return `${later.payload.gate} reopened`
    case 'gateNotNeeded':
      return `${later.payload.gate} not needed`
    default:
      return later.kind.replace(/([A-Z])/g, (letter) => ` ${letter.toLowerCase()}`)
  }
}

/** Facts that name what is voided by its id. */
const refersTo = (later: Fact, target: Fact): boolean => {
  switch (target.kind) {
    case 'photoAttached': {
      const id = target.payload.attachmentId
      if (later.kind === 'surfacePrepared') return later.payload.attachmentId === id
      if (later.kind === 'findingAdded' || later.kind === 'closedAsFound' || later.kind === 'variationRaised')
        return later.payload.attachments.includes(id)
      return later.kind === 'reportIssued' && later.payload.photos.includes(id)
    }
    case 'findingAdded':
      return later.kind === 'variationRaised' && later.payload.findings.includes(target.payload.findingId)
    case 'variationRaised':
      return later.kind === 'variationDecided' && later.payload.variationId === target.payload.variationId
    case 'variationDecided':
      return (
        (later.kind === 'declinedSettled' || later.kind === 'closedAsFound') &&
        later.payload.variationId === target.payload.variationId
      )
    case 'clockStarted':
    case 'timeLogged':
      return later.kind === 'timeCorrected' && later.payload.replaces === target.payload.entryId
    default:
      return false
  }
}

/** What would stand against a fact in a given state of the car, as comparable texts. */
const problemsOf = (next: Fact, car: CarState, workshop: WorkshopState): readonly string[] => {
  const at = Date.parse(next.happened)
  const context = { at, workshop, did: null }
  switch (next.kind) {
    case 'gatePassed': {
      const { repairId, gate } = next.payload
      const holds = standing(gateHolds(car, repairId, gate, context)).map(
        (each) => `${each.code}/${each.subject}`,
      )
      return [...holds, ...statusProblem(car, next.payload)]
    }
    case 'gateNotNeeded':
      return statusProblem(car, next.payload)
    case 'gateReopened': {
      const repair = car.repairs.get(next.payload.repairId)
      if (!repair) return []
      const closed = repair.gates[next.payload.gate].status === 'open' && repair.closedAsFound === null
      return [...uncoverHolds(car, repair).map((each) => each.subject), ...(closed ? ['not done'] : [])]
    }
    case 'closedAsFound': {
      const repair = car.repairs.get(next.payload.repairId)
      if (!repair) return []
      const behind = closingHolds(car, repair).filter((each) => each.otherRepair !== null)
      return [...behind, ...uncoverHolds(car, repair)].map((each) => `${each.code}/${each.subject}`)
    }
    case 'fitUpRecorded': {
      const group = car.fitGroups.get(next.payload.groupId)
      return group && next.payload.kind === 'full'
        ? membersNotReady(car, group).map((each) => each.repair.id)
        : []
    }
    case 'taskSigned':
      return standing(taskHolds(car, next.payload.taskId, context)).map(
        (each) => `${each.code}/${each.subject}`,
      )
    case 'layerGraded': {
      const layer = findLayer(car, next.payload.repairId, next.payload.layerId)
      return textsOf(layer.ok ? gradeRefusal(layer.value, next.payload) : layer)
    }
    case 'layersMarked':
      return next.payload.layerIds.flatMap((id) => {
        const layer = findLayer(car, next.payload.repairId, id)
        return textsOf(layer.ok ? markRefusal(car, layer.value, next.payload) : layer)
      })
    case 'partMoved': {
      const part = car.parts.get(next.payload.partId)
      return part === undefined || PART_FOLLOWS[part.state].includes(next.payload.state)
        ? []
        : [`out of turn after ${part.state}`]
    }
    default:
      return []
  }
}

const textsOf = (refused: Refused | null): readonly string[] =>
  refused === null ? [] : [refused.refusal.message]

const statusProblem = (
  car: CarState,
  { repairId, gate }: { readonly repairId: RepairId; readonly gate: Gate },
): readonly string[] => (car.repairs.get(repairId)?.gates[gate].status === 'open' ? [] : ['already done'])
