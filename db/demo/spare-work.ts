import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { taskIdOf } from './act.ts'
import type { DemoCar, DemoTask } from './demo-car.ts'
import { createJob } from './due-work.ts'
import { chance } from './hours-taken.ts'
import type { Job, When } from './job.ts'
import { demoCarId, type Stage } from './stage.ts'

/** Hours behind what would be even, below which it is not worth beginning. */
const LEAST_BEHIND = 0.5

/** What hands that have nothing more pressing turn to: the work that is furthest behind its even share, or null. */
export function findSpareWork(
  stage: Stage,
  cars: readonly DemoCar[],
  open: readonly Job[],
  when: When,
): Job | null {
  const choices = cars.flatMap((demo) =>
    demo.tasks.flatMap((task) => (task.spare ? [spareJob(stage, demo, task, open)] : [])),
  )
  const behind = choices
    .filter(({ job }) => job !== null && job.left > 0 && job.busy < job.people)
    .map(({ job, task }) => ({ job, hours: job ? hoursBehind(job, task, when) : 0 }))
    .filter(({ hours }) => hours > LEAST_BEHIND)
    .toSorted((a, b) => b.hours - a.hours)
  return behind[0]?.job ?? null
}

/** The job that was begun on the task, or a new one while the task is open. */
function spareJob(stage: Stage, demo: DemoCar, task: DemoTask, open: readonly Job[]) {
  const taskId = taskIdOf(demo, task.key)
  const begun = open.find(({ work }) => work.kind === 'task' && work.taskId === taskId)
  if (begun) return { job: begun, task }
  const state = stage.car(demoCarId(demo.key)).tasks.get(taskId)
  if (state?.status !== 'open') return { job: null, task }
  const { skill, people, hours, hotWork } = state.plan
  const { share = 0 } = task
  const takes = expectedHours(hours) * share * chance(stage.random)
  const plan = { skill, people, hotWork, worth: 0, takes, isLeftBegun: share < 1, isSpare: true }
  return { job: createJob(demo, { kind: 'task', taskId, key: task.key }, plan), task }
}

function hoursBehind({ takes, left }: Job, { spare: [from, to] = [0, 0] }: DemoTask, when: When): number {
  const share = Math.min(1, Math.max(0, (when.day + when.share - from) / (to - from)))
  return takes * share - (takes - left)
}
