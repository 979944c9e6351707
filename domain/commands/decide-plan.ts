import type { CarState } from '../car.ts'
import { fact } from '../facts.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { givenPeopleRefusal } from '../rules/given-people.ts'
import { dateRangeWords } from '../text/words.ts'
import { addDays, daysBetween, weekdayNumber } from '../time/local-date.ts'
import { localDateOf, localYearOf } from '../time/zone.ts'
import { targetKey, targetStanding } from '../value/target.ts'
import type { WorkshopState } from '../workshop.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { DecideContext } from './decide.ts'
import {
  currentVisit,
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownPeople,
  type Decider,
  type Refused,
} from './deciders.ts'

type PlanKind =
  | 'pinWork'
  | 'unpinWork'
  | 'sayLeft'
  | 'expectDecision'
  | 'planFixture'
  | 'setPlanning'
  | 'setFixtures'
  | 'setOvertime'
  | 'cancelOvertime'
  | 'takePlan'

export const planDeciders: { readonly [K in PlanKind]: Decider<K> } = {
  pinWork: onCar((payload, context) => {
    const work = findOpenWork(context.car, payload.target)
    if (!work.ok) return work
    return (
      firstRefusal(
        refuseIf(
          payload.people.length === 0 && payload.day === null,
          'bad-input',
          'This pins nothing.',
          'Name who does it, or a day.',
        ),
        givenPeopleRefusal(context.workshop, payload.people, work.value),
        pastRefusal(payload.day, context),
      ) ?? record(fact('workPinned', payload))
    )
  }),

  unpinWork: onCar(
    (payload, { car }) =>
      refuseIf(
        !car.pins.has(targetKey(payload.target)),
        'unknown',
        'This work is not pinned.',
        'Nothing to do.',
      ) ?? record(fact('workUnpinned', payload)),
  ),

  sayLeft: onCar((payload, { car }) => {
    const work = findOpenWork(car, payload.target)
    if (!work.ok) return work
    return (
      refuseIf(
        work.value.visitStatus !== 'in work',
        'not-now',
        `The visit is ${work.value.visitStatus}.`,
        'Set it in work first.',
      ) ?? record(fact('leftSaid', payload))
    )
  }),

  expectDecision: onCar((payload, context) => {
    const variation = context.car.variations.get(payload.variationId)
    return (
      firstRefusal(
        refuseIf(variation === undefined, 'unknown', 'This variation is not known.', 'Reload the car.'),
        refuseIf(
          variation?.status !== 'raised',
          'already',
          `'${variation?.title}' is ${variation?.status} already.`,
          'Nothing to do.',
        ),
        pastRefusal(payload.expected, context),
      ) ?? record(fact('decisionExpected', payload))
    )
  }),

  planFixture: onCar((payload, { car, workshop }) => {
    const visit = currentVisit(car)
    if (!visit.ok) return visit
    const { fixture } = payload
    return (
      refuseIf(
        fixture !== null && workshop.fixtures[fixture] === 0,
        'unknown',
        `The workshop has no ${fixture}.`,
        'Choose another, or say under Workshop, Planning how many there are.',
      ) ?? record(fact('fixturePlanned', payload))
    )
  }),

  setPlanning: (payload) => record(fact('planningSet', payload)),
  setFixtures: (payload) => record(fact('fixturesSet', payload)),

  setOvertime: (payload, context) =>
    overtimeRefusal(payload, context) ?? record(fact('overtimeSet', payload)),

  cancelOvertime: (payload, { workshop }) =>
    refuseIf(
      !workshop.overtime.has(payload.overtimeId),
      'unknown',
      'This overtime does not stand any more.',
      'Reload the screen.',
    ) ?? record(fact('overtimeCancelled', payload)),

  takePlan: (_, { keptPlan }) => {
    switch (keptPlan?.state) {
      case 'kept':
        return record(fact('planTaken', keptPlan.fact))
      case 'taken':
        return refuse('already', 'This plan was taken already.', 'Nothing to do.')
      case 'damaged':
        return refuse(
          'storage',
          'What is kept of this plan was changed.',
          'Start the program anew, so that another plan is made, and take that.',
        )
      case undefined:
        return refuse(
          'unknown',
          'This plan is not kept any more.',
          'Look at the plan as it is now and take that.',
        )
    }
  },
}

/** What a pin and a saying are judged by. */
interface OpenWork {
  /** 'Sill, left: welded' */
  readonly name: string
  readonly skill: string
  readonly people: number
  readonly visitStatus: string
}

/** A gate or task that is still to do, on a car whose visit is going on. */
const findOpenWork = (car: CarState, target: WorkTarget): Result<OpenWork> => {
  const visit = currentVisit(car)
  if (!visit.ok) return visit
  const work = findWork(car, target)
  if (!work.ok) return work
  const standing = targetStanding(car, target)
  const refused = refuseIf(
    standing !== 'open',
    'not-now',
    standing === 'passed' ? `${work.value.name} is done already.` : `${work.value.name} is ${standing}.`,
    'Choose work that is still to do.',
  )
  return refused ?? ok({ ...work.value, visitStatus: visit.value.status })
}

const findWork = (car: CarState, target: WorkTarget): Result<Omit<OpenWork, 'visitStatus'>> => {
  if (target.kind === 'task') {
    const task = car.tasks.get(target.taskId)
    if (!task) return refuse('unknown', 'This task is not known.', 'Reload the car.')
    return ok({ name: `'${task.plan.name}'`, skill: task.plan.skill, people: task.plan.people })
  }
  const repair = findRepair(car, target.repairId)
  if (!repair.ok) return repair
  const { skill, people } = repair.value.plan.gates[target.gate]
  return ok({ name: `${repair.value.plan.name}: ${target.gate}`, skill, people })
}

const pastRefusal = (date: string | null, context: DecideContext): Refused | null =>
  refuseIf(
    date !== null && date < today(context),
    'bad-input',
    'This day is in the past.',
    'Choose today or a later day.',
  )

const overtimeRefusal = (overtime: CommandPayload<'setOvertime'>, context: DecideContext): Refused | null => {
  const { overtimeId, people, from, to } = overtime
  return firstRefusal(
    refuseIf(
      context.workshop.overtime.has(overtimeId),
      'already',
      'This overtime is known already.',
      'Nothing to do.',
    ),
    unknownPeople(context, people),
    refuseIf(to < from, 'bad-input', 'The overtime ends before it starts.', 'Correct the dates.'),
    refuseIf(
      to < today(context),
      'bad-input',
      'These days are in the past.',
      'Confirm the clocks of those days instead.',
    ),
    refuseIf(
      !holdsWeekday(overtime),
      'bad-input',
      `None of the chosen days of the week falls on ${dateRangeWords(from, to, localYearOf(context.now, context.workshop.zone))}.`,
      'Choose other days of the week or other dates.',
    ),
  )
}

const holdsWeekday = ({ from, to, weekdays }: CommandPayload<'setOvertime'>): boolean =>
  Array.from({ length: Math.min(7, daysBetween(from, to) + 1) }, (_, index) => addDays(from, index)).some(
    (date) => weekdays.includes(weekdayNumber(date)),
  )

const today = ({
  happened,
  workshop,
}: {
  readonly happened: number
  readonly workshop: WorkshopState
}): string => localDateOf(happened, workshop.zone)
