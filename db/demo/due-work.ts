import type { CarState, RepairState } from '../../domain/car.ts'
import { gateOrder, gatesBefore, type Gate } from '../../domain/gates.ts'
import type { RepairId } from '../../domain/ids.ts'
import { groupsOf } from '../../domain/rules/fit-holds.ts'
import { isLifted, nextGate, openAway, passedAt } from '../../domain/rules/standing.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { gateHoldViews, keepsFromWork, taskHoldViews } from '../../domain/views/hold-view.ts'
import type { ViewContext } from '../../domain/views/view-context.ts'
import { isStorage } from '../../domain/workshop.ts'
import { repairIdOf, taskIdOf } from './act.ts'
import { isSameZone, type DemoCar, type DemoRepair, type DemoTask } from './demo-car.ts'
import { chance, gateShare } from './hours-taken.ts'
import type { Job, JobWork } from './job.ts'
import type { Random } from './photos/random.ts'

/** What is asked when somebody looks for work on a car. */
export interface Looking {
  readonly demo: DemoCar
  readonly car: CarState
  readonly day: number
  readonly context: ViewContext
  readonly random: Random
  /** The car's work is behind its pace; if not, only what must follow soon is done. */
  readonly isDue: boolean
  readonly isTaken: (work: JobWork) => boolean
  /** Repairs whose opening was begun and is not signed yet. */
  readonly beingOpened: readonly RepairId[]
  readonly fits: (work: { readonly skill: string; readonly hotWork: boolean }) => boolean
}

/** The first thing on the car that the person can do now and that the rules do not hold; null when there is none. */
export function findWork(looking: Looking): Job | null {
  for (const task of looking.demo.tasks.filter(({ spare }) => spare === undefined)) {
    const job = taskJob(looking, task)
    if (job) return job
  }
  for (const repair of looking.demo.repairs) {
    const job = gateJob(looking, repair)
    if (job) return job
  }
  return null
}

/** Nothing but what the work itself brings keeps people from it. */
export function isHeld(car: CarState, work: JobWork, context: ViewContext): boolean {
  if (work.kind === 'task') return taskHoldViews(car, work.taskId, context).some(keepsFromWork)
  return work.repairIds.some((id) => {
    const repair = car.repairs.get(id)
    return !repair || gateHoldViews(car, repair, work.gate, context).some(keepsFromWork)
  })
}

function taskJob(looking: Looking, task: DemoTask): Job | null {
  const { demo, car, context, random, isDue, isTaken, fits } = looking
  const taskId = taskIdOf(demo, task.key)
  const state = car.tasks.get(taskId)
  const { share = 0 } = task
  if (!state || state.status !== 'open' || share === 0 || !isDue || !fits(state.plan)) return null
  const work = { kind: 'task', taskId, key: task.key } as const
  if (isTaken(work) || !isInBooth(looking, task) || isHeld(car, work, context)) return null
  const { skill, people, hotWork, hours } = state.plan
  const worth = expectedHours(hours) * share
  const job = {
    skill,
    people,
    hotWork,
    worth,
    takes: worth * chance(random),
    isLeftBegun: share < 1,
    isSpare: false,
  }
  return createJob(demo, work, job)
}

const isInBooth = ({ car, context }: Looking, { bay }: DemoTask): boolean =>
  bay !== 'booth' || bayOf(car, context)?.kinds.includes('booth') === true

const bayOf = ({ standing }: CarState, { workshop }: ViewContext) =>
  standing === null ? undefined : workshop.bays.get(standing.bayId)

/** These follow soon once the metal is bare: nobody lets it rust. */
const NEVER_PUT_OFF: ReadonlySet<Gate> = new Set(['sealed', 'primed', 'painted'])
/** One act for all cavities of the car that are ready. */
const DONE_TOGETHER: ReadonlySet<Gate> = new Set(['sealed', 'primed'])
/** One act for what lies side by side. */
const DONE_SIDE_BY_SIDE: ReadonlySet<Gate> = new Set(['opened', 'assessed', 'welded', 'painted'])

function gateJob(looking: Looking, wanted: DemoRepair): Job | null {
  const { demo, car, random } = looking
  const first = readyGate(looking, wanted)
  if (!first) return null
  const { gate } = first
  const together = demo.repairs
    .flatMap((other) => (other === wanted ? [] : (readyGate(looking, other) ?? [])))
    .filter((other) => other.gate === gate && isDoneTogether(car, gate, first.repair, other.repair))
  const all = [first, ...together]
  const { skill, people, hotWork } = first.repair.plan.gates[gate]
  const repairIds: [RepairId, ...RepairId[]] = [first.repair.id, ...together.map(({ repair }) => repair.id)]
  const worth = sum(all.map(({ repair, hours }) => (repair.gates[gate].firstPassed === null ? hours : 0)))
  const takes = sum(
    all.map(
      ({ repair, hours, takesShare }) =>
        hours * takesShare * reworkShare(repair, gate) * gateShare(repair, gate, random),
    ),
  )
  const job = {
    skill,
    people,
    hotWork,
    worth,
    takes: takes * USUALLY_OVER,
    isLeftBegun: false,
    isSpare: false,
  }
  return createJob(demo, { kind: 'gate', gate, repairIds }, job)
}

/** Old cars take more than was agreed. */
const USUALLY_OVER = 1.1

const sum = (hours: readonly number[]): number => hours.reduce((total, each) => total + each, 0)

/** A gate done before takes less the second time. */
const reworkShare = (repair: RepairState, gate: Gate): number =>
  repair.gates[gate].firstPassed === null ? 1 : 0.4

function isDoneTogether(car: CarState, gate: Gate, a: RepairState, b: RepairState): boolean {
  if (a.plan.on !== b.plan.on) return false
  if (DONE_TOGETHER.has(gate)) return true
  if (DONE_SIDE_BY_SIDE.has(gate))
    return isSameZone(a.plan.zone, b.plan.zone) && a.plan.outer === b.plan.outer
  const groups = groupsOf(car, a.id)
  if (gate !== 'trial-fitted') return false
  if (groups.length === 0) return groupsOf(car, b.id).length === 0 && isSameZone(a.plan.zone, b.plan.zone)
  return groups.some(({ plan }) => plan.members.includes(b.id))
}

/** The repair's next gate, when it is aimed at, not begun and not held. */
function readyGate(looking: Looking, wanted: DemoRepair) {
  const { demo, car, day, context, isDue, isTaken, fits } = looking
  const repair = car.repairs.get(repairIdOf(demo, wanted.key))
  if (!repair || day < (wanted.from ?? day)) return null
  const gate = nextGate(repair)
  if (gate === null || !isAimedAt(repair, gate, wanted) || !(isDue || NEVER_PUT_OFF.has(gate))) return null
  const work = { kind: 'gate', gate, repairIds: [repair.id] } as const
  if (!fits(repair.plan.gates[gate]) || isTaken(work) || !isAtHand(repair, car, context)) return null
  if (DONE_TOGETHER.has(gate) && isJustReady(looking, repair, gate)) return null
  if (isHeld(car, work, context) || (gate === 'opened' && !isSafeToOpen(looking, repair))) return null
  return { repair, gate, hours: expectedHours(repair.plan.gates[gate].hours), takesShare: wanted.takes ?? 1 }
}

/**
 * Load-bearing metal is opened once the shell is made ready. What is being opened on another side counts as open: the
 * rules know of it only once it is signed.
 */
const isSafeToOpen = ({ car, beingOpened }: Looking, { id, plan }: RepairState): boolean =>
  !plan.loadBearing ||
  (car.safety.bracing &&
    beingOpened.every((otherId) => {
      const other = car.repairs.get(otherId)?.plan
      return !other?.loadBearing || other.zone.side === plan.zone.side || isLifted(car, id, otherId)
    }))

/** Sealer and primer are mixed in the morning, for all that was made ready the day before. */
function isJustReady({ context }: Looking, repair: RepairState, gate: Gate): boolean {
  const times = gatesBefore(repair.plan, gate).map((before) => passedAt(repair.gates[before]) ?? 0)
  return localDateOf(Math.max(0, ...times), context.workshop.zone) === context.today
}

const isAimedAt = ({ plan }: RepairState, gate: Gate, { goal }: DemoRepair): boolean =>
  goal !== null && gateOrder(plan).indexOf(gate) <= gateOrder(plan).indexOf(goal)

/** Metal is worked in a bay; a part off the car lies on the bench wherever the shell is. */
function isAtHand({ plan }: RepairState, car: CarState, context: ViewContext): boolean {
  if (plan.on === 'part') return true
  const bay = bayOf(car, context)
  return bay !== undefined && !isStorage(bay) && openAway(car) === null
}

export function createJob(
  demo: DemoCar,
  work: JobWork,
  job: Pick<Job, 'skill' | 'people' | 'takes' | 'worth' | 'isLeftBegun' | 'isSpare'> & {
    readonly hotWork: boolean
  },
): Job {
  const { hotWork, ...rest } = job
  return { demo, work, ...rest, left: job.takes, hot: hotWork, did: [], busy: 0, watches: 0 }
}
