import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../domain/plan/problem.ts'
import { solve } from '../../../domain/plan/solve/solve.ts'
import { activity, crewOf, DAY, planPerson, planProblem } from '../../support/plan-problem.ts'
import { createRandom } from '../../support/random.ts'
import { MIDDLE, randomWorkshopProblem } from '../../support/random-workshop-problem.ts'
import { scoreSchedule } from '../../support/score-schedule.ts'

/** With a plan in force that has somebody else, or another day, for some of the work. */
function withPlanInForce(problem: Problem, seed: number): Problem {
  const random = createRandom(seed)
  const { placed } = solve(problem, { seed: seed + 1000, schedules: 5 }).schedule
  const activities = problem.activities.map((each, index) => {
    const place = placed[index] ?? null
    if (place === null) return each
    const others = each.crew?.able.filter((person) => !place.crew.includes(person)) ?? []
    const isOthers = others.length >= place.crew.length && random.next() < 0.3
    const start = random.next() < 0.3 ? place.start + DAY : place.start
    return { ...each, inForce: { start, crew: isOthers ? others.slice(0, place.crew.length) : place.crew } }
  })
  return { ...problem, activities }
}

describe('the score that the search goes by', () => {
  test('is what other eyes make of its plans, changes to the plan in force among them', () => {
    const seen = { late: 0, moved: 0, changed: 0, kept: 0 }
    for (let seed = 1; seed <= 20; seed += 1) {
      const problem = withPlanInForce(randomWorkshopProblem(seed, MIDDLE), seed)
      const { schedule, score } = solve(problem, { seed, schedules: 20 })
      if (schedule.placed.includes(null)) continue
      expect(score, `workshop ${seed}`).toEqual(scoreSchedule(problem, schedule))
      if (score.lateness > 0) seen.late += 1
      if (score.moves > 0) seen.moved += 1
      seen.changed += score.changes
      seen.kept += problem.activities.length - score.changes
    }
    expect(Math.min(...Object.values(seen)), JSON.stringify(seen)).toBeGreaterThan(0)
  })

  test('leaves work with who has it in the plan in force where nothing is gained by another', () => {
    const problem = planProblem({
      people: [planPerson(), planPerson(), planPerson()],
      activities: [0, 1, 2].map((person) =>
        activity({ crew: crewOf([0, 1, 2]), inForce: { start: 0, crew: [2 - person] } }),
      ),
    })
    const { schedule, score } = solve(problem, { seed: 1, schedules: 200 })
    expect(schedule.placed.map((place) => place?.crew)).toEqual([[2], [1], [0]])
    expect(score).toEqual({ lateness: 0, moves: 0, end: 10, changes: 0 })
  })
})
