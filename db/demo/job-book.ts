import { gateOrder } from '../../domain/gates.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { targetKey } from '../../domain/value/target.ts'
import { createViewContext, type ViewContext } from '../../domain/views/view-context.ts'
import type { RepairType } from '../../domain/workshop.ts'
import type { DemoCar } from './demo-car.ts'
import type { DemoPerson } from './demo-people.ts'
import { findSpareWork } from './spare-work.ts'
import { findWork, isHeld } from './due-work.ts'
import { jobTargets, type Job, type When } from './job.ts'
import { demoCarId, type Stage } from './stage.ts'

/** What has been begun on the floor, and how far each car has come. */
export interface JobBook {
  /** What the person works on next: what was begun first, then what is furthest behind. Null when nothing is due. */
  readonly choose: (person: DemoPerson, when: When) => Job | null
  readonly spend: (job: Job, hours: number) => void
  readonly close: (job: Job) => void
}

export const isOffOn = ({ off }: DemoPerson, day: number): boolean =>
  off.some(([from, to]) => from <= day && day <= to)

export function createJobBook(stage: Stage, cars: readonly DemoCar[]): JobBook {
  const open: Job[] = []
  const come = new Map<DemoCar, number>()
  const types = [...stage.workshop().types.values()]
  const planned = new Map(cars.map((demo) => [demo, plannedHours(demo, types)]))

  const inWork = () => cars.filter((demo) => isInWork(stage, demo))
  const lagOf = (demo: DemoCar, { day, share }: When): number =>
    paceOn(demo, day + share) - (come.get(demo) ?? 0) / (planned.get(demo) ?? 1)

  const begun = (person: DemoPerson, { mayWorkHot }: When, context: ViewContext): Job | undefined =>
    open
      .filter((job) => !job.isSpare && job.left > 0 && job.busy < job.people && (mayWorkHot || !job.hot))
      .filter(({ demo, skill }) => person.skills.includes(skill) && isInWork(stage, demo))
      .toSorted((a, b) => Number(b.did.includes(person.id)) - Number(a.did.includes(person.id)))
      .find(({ demo, work }) => !isHeld(stage.car(demoCarId(demo.key)), work, context))

  const fresh = (person: DemoPerson, when: When, context: ViewContext): Job | null => {
    const taken = new Set(open.flatMap(jobTargets).map(targetKey))
    const byLag = inWork()
      .filter((demo) => peopleOn(open, demo) < MOST_PEOPLE)
      .map((demo) => ({ demo, lag: lagOf(demo, when) }))
      .toSorted((a, b) => b.lag - a.lag)
    for (const { demo, lag } of byLag) {
      const job = findWork({
        demo,
        car: stage.car(demoCarId(demo.key)),
        day: when.day,
        context,
        random: stage.random,
        isDue: lag > 0,
        beingOpened: open.flatMap(({ work }) =>
          work.kind === 'gate' && work.gate === 'opened' ? work.repairIds : [],
        ),
        isTaken: (work) => jobTargets({ work }).some((target) => taken.has(targetKey(target))),
        fits: ({ skill, hotWork }) => person.skills.includes(skill) && (when.mayWorkHot || !hotWork),
      })
      if (job) return job
    }
    return null
  }

  return {
    choose: (person, when) => {
      const context = contextOf(stage)
      const known = begun(person, when, context)
      if (known) return known
      const job = fresh(person, when, context) ?? findSpareWork(stage, inWork(), open, when)
      if (job && !open.includes(job)) open.push(job)
      return job
    },
    spend: (job, hours) => {
      const share = Math.min(hours, job.left) / job.takes
      if (!job.isSpare) come.set(job.demo, (come.get(job.demo) ?? 0) + share * job.worth)
      job.left = job.left - hours < LEAST_LEFT ? 0 : job.left - hours
    },
    close: (job) => {
      open.splice(open.indexOf(job), 1)
    },
  }
}

/** Hours too few to come back for. */
const LEAST_LEFT = 0.15
/** At one car at a time. */
const MOST_PEOPLE = 3

const peopleOn = (open: readonly Job[], demo: DemoCar): number =>
  open.reduce((sum, job) => sum + (job.demo === demo ? job.busy : 0), 0)

const contextOf = (stage: Stage) =>
  createViewContext({ now: stage.now(), workshop: stage.workshop(), nameOf: (id) => id })

function isInWork(stage: Stage, demo: DemoCar): boolean {
  const car = stage.carIfThere(demoCarId(demo.key))
  return car !== null && car.currentVisit !== null && car.visits.get(car.currentVisit)?.status === 'in work'
}

/** Person-hours of all that the demo aims at on a car, without what spare hands do. */
function plannedHours(demo: DemoCar, types: readonly RepairType[]): number {
  const repairs = demo.repairs.map(({ type, goal }) => {
    const plan = types.find(({ id }) => id === `type-${type}`)?.plan
    if (!plan || goal === null) return 0
    const order = gateOrder(plan)
    const gates = order.slice(0, order.indexOf(goal) + 1)
    return gates.reduce((sum, gate) => sum + expectedHours(plan.gates[gate].hours), 0)
  })
  const tasks = demo.tasks
    .filter(({ spare }) => spare === undefined)
    .map(
      ({ hours: [shortest, likely, longest], share = 0 }) =>
        expectedHours({ shortest, likely, longest }) * share,
    )
  return [...repairs, ...tasks].reduce((sum, hours) => sum + hours, 0)
}

/** The share that shall be done by a day; in between the days that the demo names it grows evenly. */
export function paceOn({ pace }: Pick<DemoCar, 'pace'>, day: number): number {
  const index = pace.findIndex(([each]) => each > day)
  const after = pace[index]
  if (!after) return pace.at(-1)?.[1] ?? 1
  const before = pace[index - 1]
  if (!before) return 0
  return before[1] + ((after[1] - before[1]) * (day - before[0])) / (after[0] - before[0])
}
