import type { CarState, GateRecordState, RepairState, Stamp, TaskState, VisitState } from '../../car.ts'
import { eachGate } from '../../gates.ts'
import { awayIdSchema, carIdSchema, visitIdSchema, type VisitId } from '../../ids.ts'
import { ok, refuse, type Result } from '../../refusal.ts'
import { isActive } from '../../rules/standing.ts'
import { isAgreed } from '../../value/varied-hours.ts'
import type { PlanInput } from '../plan-input.ts'
import { dayRefusal, findCar, unknown, type WhatIfOf } from './refusals.ts'

/**
 * A car with the repairs and tasks of another one, none of them begun and all agreed, here from a day on. What was not
 * needed there is not needed.
 */
export function newCar(input: PlanInput, whatIf: WhatIfOf<'new car'>): Result<PlanInput> {
  const like = findCar(input, whatIf.like)
  const visit = like?.currentVisit ? like.visits.get(like.currentVisit) : undefined
  if (like === undefined || visit === undefined) return unknown('car')
  if (like.repairs.size + like.tasks.size === 0)
    return refuse('bad-input', `${like.name} has no repairs to go by.`, 'Choose a car that has some.')
  const refused =
    dayRefusal(input, whatIf.arrives) ??
    (whatIf.promised === null ? null : dayRefusal(input, whatIf.promised))
  return refused ?? ok({ ...input, cars: [...input.cars, carLike(like, visit, whatIf, input)] })
}

function carLike(
  like: CarState,
  visit: VisitState,
  { name, arrives, promised, priority }: WhatIfOf<'new car'>,
  { cars, now }: PlanInput,
): CarState {
  const number = cars.length + 1
  const stamp: Stamp = { number: 0, by: null, happened: now, recorded: now }
  const visitId = visitIdSchema.parse(`what-if-visit-${number}`)
  const repairs = [...like.repairs.values()].filter(isActive)
  const tasks = [...like.tasks.values()].filter((task) => task.visitId === visit.id)
  return {
    ...like,
    id: carIdSchema.parse(`what-if-car-${number}`),
    name,
    shellNumber: '',
    visits: new Map([[visitId, visitLike(visit, visitId, { promised, priority, stamp })]]),
    currentVisit: visitId,
    repairs: new Map(repairs.map((repair) => [repair.id, unbegun(repair, visitId)])),
    tasks: new Map(tasks.map((task) => [task.id, unsigned(task, visitId)])),
    safety: { bracing: false, battery: false, fuel: false },
    standing: null,
    // Comes as a car does that is away at a firm until that day.
    aways: new Map([
      [
        AWAY,
        {
          id: AWAY,
          firmId: visit.ownerId,
          what: '',
          from: arrives,
          expected: arrives,
          sent: stamp,
          returned: null,
        },
      ],
    ]),
    parts: new Map(),
    holds: new Map(),
    lifts: new Map(),
    variations: new Map(
      [...like.variations].flatMap(([id, each]) =>
        each.visitId === visit.id && isAgreed(each.status) ? [[id, { ...each, visitId }]] : [],
      ),
    ),
    spendings: new Map(),
    entries: new Map(),
    bookings: new Map(),
    pins: new Map(),
    left: new Map(),
    fitGroups: new Map([...like.fitGroups].map(([id, group]) => [id, { ...group, fitUps: [] }])),
  }
}

const AWAY = awayIdSchema.parse('what-if-arrival')

/** Every line of the estimate is accepted. */
function visitLike(
  visit: VisitState,
  id: VisitId,
  { promised, priority, stamp }: Pick<VisitState, 'promised' | 'priority'> & { readonly stamp: Stamp },
): VisitState {
  const lines = [...visit.lines].map(([lineId, line]) => [lineId, { ...line, accepted: stamp }] as const)
  return {
    ...visit,
    id,
    opened: stamp,
    from: null,
    status: 'in work',
    promised,
    priority,
    lines: new Map(lines),
    left: null,
  }
}

const OPEN: GateRecordState = {
  status: 'open',
  done: null,
  reopened: null,
  evidenceFloor: 0,
  firstPassed: null,
}

function unbegun(repair: RepairState, visitId: VisitId): RepairState {
  const gates = eachGate((gate) => (repair.gates[gate].status === 'not needed' ? repair.gates[gate] : OPEN))
  const unworked = { releases: [], releasedSpells: [], closedAsFound: null, reviewed: null, prepared: [] }
  return { ...repair, visitId, from: null, gates, ...unworked }
}

const unsigned = (task: TaskState, visitId: VisitId): TaskState =>
  task.status === 'not needed'
    ? { ...task, visitId }
    : { ...task, visitId, status: 'open', done: null, reopened: null, firstPassed: null }
