import { describe, expect, it } from 'vitest'
import { repairIdSchema } from '../../../../domain/ids.ts'
import type { Gate } from '../../../../domain/gates.ts'
import { createDraw } from '../../../../domain/plan/likelihood/draws.ts'
import { TABLE_SCORES } from '../../../../domain/estimate/score-table.ts'
import { durationsOf } from '../../../../domain/plan/likelihood/durations.ts'
import { USUAL_MULTIPLES } from '../../../../domain/plan/likelihood/prior.ts'
import { builtProblem } from '../../../support/built-problem.ts'
import { activity, planProblem } from '../../../support/plan-problem.ts'

const repairId = repairIdSchema.parse('repair-number-1')
const onGate = (gate: Gate, assessed: boolean) => ({
  target: { kind: 'gate' as const, repairId, gate },
  repairId,
  assessed,
})

describe('how sure work is', () => {
  it('is less sure behind what is not assessed, from the gate after assessed on', () => {
    const gates: readonly Gate[] = ['opened', 'assessed', 'fabricated', 'painted']
    const problem = planProblem({ activities: gates.map(() => activity()) })
    const hiddenOf = (assessed: boolean) =>
      durationsOf(
        builtProblem(
          problem,
          gates.map((gate) => onGate(gate, assessed)),
        ),
        new Map(),
      ).map(({ hidden }) => hidden !== null)
    expect(hiddenOf(false)).toEqual([false, false, true, true])
    expect(hiddenOf(true)).toEqual([false, false, false, false])
  })

  it('is drawn by what was learned for its repair, and by the usual multiples where nothing was', () => {
    const built = builtProblem(planProblem({ activities: [activity()] }), [onGate('welded', false)])
    const learned = TABLE_SCORES.map(() => 3)
    expect(durationsOf(built, new Map([[repairId, learned]]))[0]?.hidden).toBe(learned)
    expect(durationsOf(built, new Map())[0]?.hidden).toBe(USUAL_MULTIPLES)
    const sure = { shortest: 1, likely: 1, longest: 1, hidden: learned }
    const work = new Int32Array(3)
    createDraw([activity({ work: 50 })], [sure], { samples: 3, seed: 1 })(0, work)
    expect([...work]).toEqual([150, 150, 150])
  })

  it('is drawn around the planned work, in whole ticks of at least one, each stratum once', () => {
    const activities = [
      activity({ work: 120, repair: 1 }),
      activity({ work: 1, repair: 2 }),
      activity({ work: 0 }),
    ]
    const points = { shortest: 7, likely: 9, longest: 18, hidden: null }
    const draw = createDraw(activities, [points, points, points], { samples: 1000, seed: 5 })
    const drawn = activities.map((_, index) => {
      const work = new Int32Array(1000)
      draw(index, work)
      return work
    })
    const mean = (work: Int32Array): number => work.reduce((sum, ticks) => sum + ticks, 0) / work.length
    // Planned 120 ticks stand for the mean of 7, 9 and 18, which is (7 + 36 + 18) / 6.
    const unit = 120 / (61 / 6)
    expect(mean(drawn[0]!)).toBeCloseTo(120, 0)
    expect(Math.min(...drawn[0]!)).toBeGreaterThanOrEqual(Math.floor(7 * unit))
    expect(Math.max(...drawn[0]!)).toBeLessThanOrEqual(Math.ceil(18 * unit))
    expect(Math.min(...drawn[1]!)).toBe(1)
    expect(new Set(drawn[2])).toEqual(new Set([0]))
  })

  it('takes work whose three points say nothing as planned', () => {
    const nothing = { shortest: 0, likely: 0, longest: 0, hidden: null }
    const draw = createDraw([activity({ work: 50 })], [nothing], { samples: 3, seed: 1 })
    const work = new Int32Array(3)
    draw(0, work)
    expect([...work]).toEqual([50, 50, 50])
  })
})
