import { describe, expect, it } from 'vitest'
import { checkSchedule } from '../../../domain/plan/check.ts'
import type { Problem } from '../../../domain/plan/problem.ts'
import { compile } from '../../../domain/plan/solve/compile.ts'
import { sampleList } from '../../../domain/plan/solve/first-lists.ts'
import { createGenerator } from '../../../domain/plan/solve/generate.ts'
import { mirror } from '../../../domain/plan/solve/mirror.ts'
import { createPlainGenerator } from '../../../domain/plan/solve/plain-generator.ts'
import { createRandom } from '../../../domain/plan/solve/random.ts'
import { J301_1 } from '../../support/plain-projects.ts'
import { projectToProblem } from '../../support/psplib.ts'

const project = projectToProblem(J301_1)

/** The project with dates, lags and tails of its own. */
const dated: Problem = {
  ...project,
  horizon: 1000,
  activities: project.activities.map((each, at) => ({
    ...each,
    earliest: (at * 7) % 23,
    tail: (at * 5) % 11,
  })),
  links: project.links.map((link, at) => ({ ...link, lag: at % 4 })),
}

/** Too much asked of a resource, and no time for all that follows. */
const hopeless: Problem = {
  ...dated,
  horizon: 60,
  activities: dated.activities.map((each, at) =>
    at === 9 ? { ...each, uses: [{ resource: 0, amount: 13 }] } : each,
  ),
}

const lists = (problem: Problem): readonly Int32Array[] => {
  const space = compile(problem)
  const random = createRandom(3)
  const even = new Float64Array(space.size)
  return Array.from({ length: 20 }, () => sampleList(space, even, 0, random))
}

describe('the plain generation', () => {
  it.each([
    ['a published project', project],
    ['dates, lags and tails', dated],
    ['work that cannot be placed', hopeless],
  ])('places and scores as the one of the workshop does: %s', (_, problem) => {
    const plain = createPlainGenerator(compile(problem))
    const workshop = createGenerator(compile(problem))
    for (const list of lists(problem)) {
      plain.decode(list)
      workshop.decode(list)
      expect(plain.schedule()).toEqual(workshop.schedule())
      expect(plain.score).toEqual(workshop.score)
    }
  })
})

describe('a problem with time turned round', () => {
  it('has schedules that are schedules of the problem, read from their ends', () => {
    const turned = mirror(dated)!
    const generator = createPlainGenerator(compile(turned))
    for (const list of lists(turned)) {
      generator.decode(list)
      const end = generator.score[2]!
      const placed = dated.activities.map((_, at) => ({
        start: end - generator.finishes[at]!,
        finish: end - generator.starts[at]!,
        crew: [],
        bay: null,
      }))
      expect(checkSchedule(dated, { placed, stays: [], moves: [] })).toEqual([])
    }
  })

  it('is the problem when it is turned round twice', () => {
    expect(mirror(mirror(dated)!)).toEqual(dated)
  })

  it('is not to be had with a pin on the first tick', () => {
    const pinned = dated.activities.map((each, at) => (at === 0 ? { ...each, latestStart: 0 } : each))
    expect(mirror({ ...dated, activities: pinned })).toBeNull()
  })
})
