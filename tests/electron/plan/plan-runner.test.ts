import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { USUAL_BUDGET } from '../../../domain/plan/plan-budget.ts'
import { GATES } from '../../../domain/gates.ts'
import type { Plan } from '../../../domain/plan/plan.ts'
import type { PlanRequest } from '../../../electron/plan/plan-job.ts'
import {
  createPlanRunner,
  type PlanRunner,
  type PlanRunnerOptions,
} from '../../../electron/plan/plan-runner.ts'
import { buildCar } from '../../support/car-builder.ts'
import { buildWorkshop } from '../../support/workshop-builder.ts'
import { EXITS, HANGS, IS_SILENT, THROWS } from './failing-planner.ts'

let runners: PlanRunner[]
beforeEach(() => {
  runners = []
})
afterEach(() => Promise.all(runners.map((runner) => runner.close())))

const workerUrl = new URL('./failing-planner.ts', import.meta.url)
const openRunner = (options: PlanRunnerOptions = { workerUrl }): PlanRunner => {
  const runner = createPlanRunner(options)
  runners.push(runner)
  return runner
}

const seeded = (seed: number): PlanRequest => ({
  input: { workshop: buildWorkshop(), cars: [], names: new Map(), now: 0, inForce: null, hidden: new Map() },
  whatIfs: [],
  budget: { ...USUAL_BUDGET, seed },
})
const plannedFrom = (seed: number) => ({ kind: 'plan', plan: { madeAt: seed } })

describe('the planner’s thread', () => {
  it('answers each request with its own plan, the first of each early', async () => {
    const runner = openRunner()
    const first: number[] = []
    const runs = [1, 2, 3].map((seed) =>
      runner.run(seeded(seed), 'what if', (plan) => first.push(plan.madeAt)),
    )
    const ends = await Promise.all(runs.map((run) => run.end))
    expect(ends).toMatchObject([1, 2, 3].map(plannedFrom))
    expect(first).toEqual([-1, -2, -3])
  })

  it.each([
    ['throws', THROWS, 'a defect in the planner'],
    ['ends', EXITS, 'code 7'],
  ])(
    'that %s fails what it was asked, and the next request is answered by a new one',
    async (_, seed, words) => {
      const runner = openRunner()
      const lost = runner.run(seeded(seed), 'replan')
      expect(await lost.end).toEqual({ kind: 'failed', words: expect.stringContaining(words) })
      expect(await runner.run(seeded(2), 'replan').end).toMatchObject(plannedFrom(2))
    },
  )

  it('that is not heard of is ended, whether it is busy for ever or idle', async () => {
    const runner = openRunner({ workerUrl, silenceMs: 1_500 })
    for (const seed of [HANGS, IS_SILENT])
      expect(await runner.run(seeded(seed), 'replan').end).toEqual({
        kind: 'failed',
        words: expect.stringContaining('1.5 s'),
      })
    expect(await runner.run(seeded(2), 'replan').end).toMatchObject(plannedFrom(2))
  })

  it('may be silent while replanning is held', async () => {
    const runner = openRunner({ workerUrl, silenceMs: 50 })
    runner.hold(true)
    const run = runner.run(seeded(IS_SILENT), 'replan')
    const waited = new Promise((resolve) => setTimeout(() => resolve('still there'), 300))
    expect(await Promise.race([run.end, waited])).toBe('still there')
  })

  it('takes another request when one is stopped; that one is answered as stopped', async () => {
    const runner = openRunner()
    const stopped = runner.run(seeded(IS_SILENT), 'replan')
    stopped.stop()
    expect(await stopped.end).toEqual({ kind: 'stopped' })
    expect(await runner.run(seeded(3), 'replan').end).toMatchObject(plannedFrom(3))
    stopped.stop()
  })

  it('answers all as stopped when the program closes, and everything after that', async () => {
    const runner = openRunner()
    const running = runner.run(seeded(IS_SILENT), 'replan')
    await runner.close()
    expect(await running.end).toEqual({ kind: 'stopped' })
    expect(await runner.run(seeded(1), 'replan').end).toEqual({ kind: 'stopped' })
  })
})

describe('the planner’s own thread', () => {
  /** One car with one repair. */
  const planned = (placements: number): PlanRequest => ({
    input: {
      workshop: buildWorkshop(),
      cars: [buildCar().repair('Boot floor').agree('Boot floor').car()],
      names: new Map(),
      now: Date.parse('2026-11-25T10:40:00Z'),
      inForce: null,
      hidden: new Map(),
    },
    whatIfs: [],
    budget: { ...USUAL_BUDGET, placements, slice: 50, samples: 50 },
  })
  const FOR_EVER = 10_000_000_000

  it('ends a plan between two slices when it is stopped', async () => {
    const runner = openRunner({})
    const first = Promise.withResolvers<Plan>()
    const long = runner.run(planned(FOR_EVER), 'replan', first.resolve)
    expect((await first.promise).work).toHaveLength(GATES.length)
    long.stop()
    // Asked in turn: it would wait for the long one.
    expect(await runner.run(planned(200), 'replan').end).toMatchObject({ kind: 'plan' })
  })

  it('answers a what-if while a plan is being made', async () => {
    const runner = openRunner({})
    const long = runner.run(planned(FOR_EVER), 'replan')
    const asked = await runner.run(planned(200), 'what if').end
    expect(asked).toMatchObject({ kind: 'plan', plan: { faults: [] } })
    long.stop()
    expect(await long.end).toEqual({ kind: 'stopped' })
  })

  it('answers the same request with the same plan', async () => {
    const ends = await Promise.all([1, 2].map(() => openRunner({}).run(planned(600), 'replan').end))
    expect(ends[0]).toMatchObject({ kind: 'plan' })
    expect(ends[1]).toEqual(ends[0])
  })
})
