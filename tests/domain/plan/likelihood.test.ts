import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Duration } from '../../../domain/plan/likelihood/durations.ts'
import { HIDDEN_DAMAGE, USUAL_MULTIPLES } from '../../../domain/plan/likelihood/prior.ts'
import { finishLikelihood } from '../../../domain/plan/likelihood.ts'
import { criticalPath } from '../../../domain/plan/critical-path.ts'
import type { Problem } from '../../../domain/plan/problem.ts'
import type { Schedule } from '../../../domain/plan/schedule.ts'
import { solve } from '../../../domain/plan/solve/solve.ts'
import { RELIABLE_CONSTRUCTION } from '../../support/networks.ts'
import {
  activity,
  crewOf,
  placement,
  planCar,
  planPerson,
  planProblem,
  schedule,
} from '../../support/plan-problem.ts'
import { MIDDLE, randomWorkshopProblem } from '../../support/random-workshop-problem.ts'

const USUAL = { samples: 1000, seed: 1 }

const sure = (ticks: number): Duration => ({
  shortest: ticks,
  likely: ticks,
  longest: ticks,
  hidden: null,
})

/** Between 1 - spread and 1 + 2 spread of what is planned; likely is chosen so that the mean is as planned. */
const unsure = (ticks: number, spread: number): Duration => ({
  shortest: ticks * (1 - spread),
  likely: ticks * (1 - spread / 4),
  longest: ticks * (1 + 2 * spread),
  hidden: null,
})

const worksOf = ({ activities }: Problem): readonly number[] => activities.map(({ work }) => work)

/** Work that waits only for other work, as early as can be. */
const earlySchedule = (problem: Problem): Schedule => {
  const { earliestStart, earliestFinish } = criticalPath(problem.activities, problem.links)
  return schedule({
    placed: earliestStart.map((start, index) => placement(start, { finish: earliestFinish[index]! })),
  })
}

/** One car, work in a row, each of a repair of its own. */
const row = (works: readonly number[]): Problem =>
  planProblem({
    horizon: 100_000,
    cars: [planCar()],
    activities: works.map((work, repair) => activity({ car: 0, work, repair })),
    links: works.slice(1).map((_, before) => ({ before, after: before + 1, lag: 0 })),
  })

const finishesOf = (problem: Problem, { placed }: Schedule): readonly number[] =>
  problem.cars.map((_, car) =>
    Math.max(
      ...problem.activities.map((each, index) =>
        each.car === car ? placed[index]!.finish + each.tail : -Infinity,
      ),
    ),
  )

describe('how sure a finish is', () => {
  it('is as planned where the work is without doubt', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (seed) => {
        const problem = randomWorkshopProblem(seed, MIDDLE)
        const plan = solve(problem, { seed: 1, schedules: 8 }).schedule
        const likelihoods = finishLikelihood(problem, plan, worksOf(problem).map(sure), {
          samples: 5,
          seed: 1,
        })
        const planned = finishesOf(problem, {
          ...plan,
          placed: plan.placed.map((each) => each ?? placement(0)),
        })
        likelihoods.forEach((each, car) => {
          const isWhole = problem.activities.every(
            (one, index) => one.car !== car || plan.placed[index] !== null,
          )
          if (!isWhole) return expect(each).toBeNull()
          expect([each!.finish50, each!.finish80]).toEqual([planned[car], planned[car]])
          expect(each!.drivers).toEqual([])
        })
      }),
      { numRuns: 10 },
    )
  })

  it('ends a network later than PERT promises, because paths meet', () => {
    // Hillier & Lieberman's plant; 200,000 samples of its betas reckoned elsewhere give .818 by week 47, PERT .8413.
    const { points, links } = RELIABLE_CONSTRUCTION
    const problem = planProblem({
      horizon: 100_000,
      cars: [planCar({ due: 4700 })],
      activities: points.map(({ shortest, likely, longest }, repair) =>
        activity({ car: 0, repair, work: Math.round(((shortest + 4 * likely + longest) / 6) * 100) }),
      ),
      links,
    })
    const durations = points.map((each) => ({ ...each, hidden: null }))
    const [end] = finishLikelihood(problem, earlySchedule(problem), durations, { samples: 20_000, seed: 7 })
    expect(1 - end!.late!).toBeGreaterThan(0.808)
    expect(1 - end!.late!).toBeLessThan(0.828)
  })

  it('has the quantiles of a single piece of work', () => {
    // P50 and P80 of the modified PERT beta of 4, 5 and 12; see distributions.test.ts.
    const problem = row([600])
    const points = { shortest: 4, likely: 5, longest: 12, hidden: null }
    const [end] = finishLikelihood(problem, earlySchedule(problem), [points], USUAL)
    expect(end!.finish50 / 100).toBeCloseTo(5.769, 1)
    expect(end!.finish80 / 100).toBeCloseTo(7.103, 1)
  })

  it('is the same for the same seed, and another for another', () => {
    const problem = row([40, 80, 60])
    const plan = earlySchedule(problem)
    const durations = worksOf(problem).map((work) => unsure(work * 100, 0.5))
    const play = (seed: number) => finishLikelihood(problem, plan, durations, { samples: 100, seed })
    expect(play(3)).toEqual(play(3))
    expect(play(4)).not.toEqual(play(3))
  })

  it('never ends sooner at 80 % for being less sure', () => {
    const works = fc.array(fc.integer({ min: 100, max: 2000 }), { minLength: 1, maxLength: 8 })
    const spreads = fc.tuple(fc.integer({ min: 0, max: 9 }), fc.integer({ min: 1, max: 5 }))
    fc.assert(
      fc.property(works, spreads, (planned, [less, more]) => {
        const problem = row(planned)
        const plan = earlySchedule(problem)
        const at = (tenths: number): number =>
          finishLikelihood(
            problem,
            plan,
            planned.map((work) => unsure(work, tenths / 15)),
            { samples: 200, seed: 1 },
          )[0]!.finish80
        expect(at(less + more)).toBeGreaterThanOrEqual(at(less))
      }),
      { numRuns: 40 },
    )
  })

  it('is not told of a car without work, or of which work is not placed', () => {
    const problem = planProblem({
      cars: [planCar(), planCar(), planCar()],
      activities: [activity({ car: 0 }), activity({ car: 1 }), activity({ car: 1 })],
    })
    const plan = schedule({ placed: [placement(0), placement(0), null] })
    const told = finishLikelihood(problem, plan, [sure(1), sure(1), sure(1)], USUAL)
    expect(told.map((each) => each === null)).toEqual([false, true, true])
    expect(told[0]!.late).toBeNull()
  })
})

describe('what a repair hides', () => {
  it('makes its later gates longer by the stated prior', () => {
    const problem = row([1000])
    const [end] = finishLikelihood(
      problem,
      earlySchedule(problem),
      [{ ...sure(1), hidden: USUAL_MULTIPLES }],
      USUAL,
    )
    // Lognormal: median, and times e^(.8416 s) at 80 %.
    expect(end!.finish50 / 1000).toBeCloseTo(HIDDEN_DAMAGE.median, 2)
    expect(end!.finish80 / 1000).toBeCloseTo(
      HIDDEN_DAMAGE.median * Math.exp(0.8416 * HIDDEN_DAMAGE.logDeviation),
      2,
    )
  })

  it('makes all of them longer together', () => {
    const apart = row([1000, 1000, 1000, 1000])
    const together = {
      ...apart,
      activities: apart.activities.map((each) => ({ ...each, repair: 0 })),
    }
    const durations = apart.activities.map(() => ({ ...sure(1), hidden: USUAL_MULTIPLES }))
    const width = (problem: Problem): number => {
      const [end] = finishLikelihood(problem, earlySchedule(problem), durations, USUAL)
      return end!.finish80 - end!.finish50
    }
    // Four equal ones add up to four times the spread, four independent ones to twice.
    expect(width(together) / width(apart)).toBeGreaterThan(1.6)
  })
})

describe('what drives a finish', () => {
  it('are the repairs that are least sure, by their share of the variance', () => {
    const problem = row([1000, 1000, 1000, 1000, 1000])
    const spreads = [0.1, 0.6, 0, 0.2, 0.3]
    const [end] = finishLikelihood(
      problem,
      earlySchedule(problem),
      spreads.map((spread) => unsure(1000, spread)),
      USUAL,
    )
    const squares = spreads.reduce((sum, spread) => sum + spread * spread, 0)
    expect(end!.drivers.map(({ repair }) => repair)).toEqual([1, 4, 3])
    end!.drivers.forEach(({ repair, share }) => expect(share).toBeCloseTo(spreads[repair]! ** 2 / squares, 1))
  })

  it('may be a repair of another car that has the people before, never one that comes after', () => {
    const problem = planProblem({
      people: [planPerson()],
      cars: [planCar(), planCar(), planCar()],
      activities: [0, 1, 2].map((car) => activity({ car, repair: car, work: 100, crew: crewOf([0]) })),
    })
    const plan = schedule({
      placed: [0, 100, 200].map((start) => placement(start, { finish: start + 100, crew: [0] })),
    })
    const durations = [unsure(100, 0.8), sure(100), unsure(100, 0.8)]
    const told = finishLikelihood(problem, plan, durations, USUAL)
    expect(told[1]!.drivers).toEqual([{ repair: 0, share: 1 }])
  })
})
