import type { CarDraft, Stamp } from '../car.ts'
import type { Fact, FactOf, PayloadOf } from '../facts.ts'
import type { VisitId } from '../ids.ts'
import { isActive, isFinished } from '../rules/standing.ts'
import { targetStandings } from '../value/target.ts'
import { applyRepairFact } from './apply-repair.ts'
import { isOver } from '../visit-over.ts'

/** The car itself, its visits, dimensions, repairs, links and tasks. */
export const applyCarFact = (car: CarDraft, fact: Fact, stamp: Stamp): void => {
  switch (fact.kind) {
    case 'carChanged':
      Object.assign(car, fact.payload)
      return
    case 'visitOpened':
      return openVisit(car, fact.payload, stamp)
    case 'visitChanged': {
      const visit = car.visits.get(fact.payload.visitId)
      if (!visit) return
      visit.promised = fact.payload.promised
      visit.priority = fact.payload.priority
      visit.charge = fact.payload.charge
      if (fact.payload.insurerId !== undefined) visit.insurerId = fact.payload.insurerId
      return
    }
    case 'visitStatusSet':
      return setVisitStatus(car, fact, stamp)
    case 'safetySet':
      car.safety[fact.payload.item] = fact.payload.stands
      return
    case 'dimensionAdded':
      return addDimension(car, fact.payload, stamp)
    case 'dimensionTargetSet': {
      const dimension = car.dimensions.get(fact.payload.dimensionId)
      if (!dimension) return
      dimension.targetMm = fact.payload.targetMm
      dimension.targetReason = fact.payload.reason
      return
    }
    case 'dimensionRead': {
      const { readingId, dimensionId, mm, stood, doorsHung } = fact.payload
      car.dimensions.get(dimensionId)?.readings.push({ id: readingId, mm, stood, doorsHung, stamp })
      return
    }
    case 'noted':
      car.notes.push({ text: fact.payload.text, stamp })
      return
    case 'taskAdded': {
      if (!fact.visitId) return
      const { taskId, plan } = fact.payload
      car.tasks.set(taskId, {
        id: taskId,
        visitId: fact.visitId,
        added: stamp,
        plan,
        status: 'open',
        done: null,
        reopened: null,
        firstPassed: null,
      })
      return
    }
    case 'taskChanged': {
      const task = car.tasks.get(fact.payload.taskId)
      if (task) task.plan = fact.payload.plan
      return
    }
    default:
      return applyRepairFact(car, fact, stamp)
  }
}

const openVisit = (car: CarDraft, payload: PayloadOf<'visitOpened'>, stamp: Stamp): void => {
  const last = car.currentVisit && car.visits.get(car.currentVisit)
  if (last) last.left = targetStandings(car)
  car.visits.set(payload.visitId, {
    id: payload.visitId,
    kind: payload.kind,
    ownerId: payload.ownerId,
    insurerId: payload.insurerId,
    opened: stamp,
    from: null,
    status: payload.status,
    statusSince: stamp.happened,
    promised: payload.promised,
    priority: payload.priority,
    charge: payload.charge,
    lines: new Map(),
    costs: new Map(),
    left: null,
  })
  car.currentVisit = payload.visitId
  goOnHere(car, payload.visitId)
}

/** What came unfinished from another workshop goes on in the first visit of this one. */
const goOnHere = (car: CarDraft, visitId: VisitId): void => {
  const cameWith = (of: VisitId) => (car.visits.get(of)?.from ?? null) !== null
  for (const repair of car.repairs.values()) {
    const goesOn = isActive(repair) && repair.closedAsFound === null && !isFinished(repair)
    if (goesOn && cameWith(repair.visitId)) repair.visitId = visitId
  }
  for (const task of car.tasks.values())
    if (task.status === 'open' && cameWith(task.visitId)) task.visitId = visitId
}

const setVisitStatus = (
  car: CarDraft,
  { payload, happened }: FactOf<'visitStatusSet'>,
  stamp: Stamp,
): void => {
  const visit = car.visits.get(payload.visitId)
  if (!visit) return
  visit.status = payload.status
  visit.statusSince = stamp.happened
  if (isOver(visit)) leave(car, happened, stamp)
}

/** A car that leaves takes nothing with it that made its shell safe to cut, and gives back the bays that are booked for it. */
const leave = (car: CarDraft, happened: string, stamp: Stamp): void => {
  car.safety = { bracing: false, battery: false, fuel: false }
  car.standing = null
  // Said with the workshop's own offset, so that its date is the local one.
  const today = happened.slice(0, 'yyyy-mm-dd'.length)
  for (const booking of car.bookings.values()) {
    if (booking.from > today) booking.cancelled ??= stamp
    else if (booking.to > today) booking.to = today
  }
}

const addDimension = (car: CarDraft, payload: PayloadOf<'dimensionAdded'>, stamp: Stamp): void => {
  const { dimensionId, name, kind, side, limitMm, mm, stood, doorsHung } = payload
  car.dimensions.set(dimensionId, {
    id: dimensionId,
    name,
    kind,
    side,
    limitMm,
    asFound: { id: null, mm, stood, doorsHung, stamp },
    targetMm: mm,
    targetReason: null,
    readings: [],
  })
}
