import { describe, expect, it } from 'vitest'
import { criticalPath } from '../../../domain/plan/critical-path.ts'
import { PORTA_VAC, RELIABLE_CONSTRUCTION } from '../../support/networks.ts'

const step = (work: number) => ({ work, earliest: 0, tail: 0 })

/** Letters of what has no slack, in order. */
const critical = (slack: readonly number[]): string =>
  slack.flatMap((ticks, index) => (ticks === 0 ? [letter(index)] : [])).join('-')

const letter = (index: number): string => String.fromCodePoint('A'.codePointAt(0)! + index)

/** (a + 4m + b) / 6, times 6: whole ticks. */
const sixfoldMean = ({ shortest, likely, longest }: (typeof PORTA_VAC.points)[number]): number =>
  shortest + 4 * likely + longest

describe('the critical path', () => {
  it('is the textbook one of the vacuum cleaner', () => {
    // Anderson, Sweeney & Williams, An Introduction to Management Science, ch. 9: 17 weeks, slack B7 C4 D1 F4 G1.
    const path = criticalPath(
      PORTA_VAC.points.map((each) => step(sixfoldMean(each))),
      PORTA_VAC.links,
    )
    expect(path.end).toBe(6 * 17)
    expect(critical(path.slack)).toBe('A-E-H-I-J')
    expect(path.slack.map((ticks) => ticks / 6)).toEqual([0, 7, 4, 1, 0, 4, 1, 0, 0, 0])
  })

  it('is the textbook one of the plant', () => {
    // Hillier & Lieberman, Introduction to Operations Research; three points and predecessors from memory: 44 weeks.
    const path = criticalPath(
      RELIABLE_CONSTRUCTION.points.map((each) => step(sixfoldMean(each))),
      RELIABLE_CONSTRUCTION.links,
    )
    expect(path.end).toBe(6 * 44)
    expect(critical(path.slack)).toBe('A-B-C-E-F-J-L-N')
  })

  it('ends at 46 in the example of a linear programming kit', () => {
    // GLPK, example cpp.mod: "The optimal solution is 46".
    const works = [3, 4, 3, 10, 8, 4, 6, 8, 5, 5, 4, 2, 4]
    const before = ['', 'A', 'B', 'B', 'D', 'D', 'D', 'CEFG', 'H', 'H', 'I', 'J', 'KL']
    const links = before.flatMap((letters, after) =>
      letters
        .split('')
        .map((each) => ({ before: each.codePointAt(0)! - 'A'.codePointAt(0)!, after, lag: 0 })),
    )
    expect(criticalPath(works.map(step), links).end).toBe(46)
  })

  it('counts lags, first ticks and tails', () => {
    // By hand: 5..8, lag 4, 12..14, tail 3 to 17; the other 0..6 may end at 17.
    const path = criticalPath(
      [
        { work: 3, earliest: 5, tail: 0 },
        { work: 2, earliest: 0, tail: 3 },
        { work: 6, earliest: 0, tail: 0 },
      ],
      [{ before: 0, after: 1, lag: 4 }],
    )
    expect(path.end).toBe(17)
    expect(path.earliestStart).toEqual([5, 12, 0])
    expect(path.earliestFinish).toEqual([8, 14, 6])
    expect(path.latestStart).toEqual([5, 12, 11])
    expect(path.latestFinish).toEqual([8, 14, 17])
    expect(path.slack).toEqual([0, 0, 11])
  })

  it('is empty without work', () => {
    expect(criticalPath([], []).end).toBe(0)
  })
})
