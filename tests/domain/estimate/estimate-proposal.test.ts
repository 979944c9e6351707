import { describe, expect, it, test } from 'vitest'
import { proposeEstimate } from '../../../domain/estimate/estimate-proposal.ts'
import type { FinishedRepair } from '../../../domain/estimate/finished-repair.ts'
import { GATES } from '../../../domain/gates.ts'
import { typeIdSchema } from '../../../domain/ids.ts'
import { usualTruth } from '../../support/workshop-truth.ts'
import { expectedHours } from '../../../domain/value/estimated-hours.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../../support/simulated-workshop.ts'

const SILLS = typeIdSchema.parse('type-sills')
const ROWS = simulatedHistory(createSimulatedWorkshop(3), usualTruth(), 40)
const OWN = ROWS.filter(({ typeId }) => typeId === SILLS)

describe('an estimate proposed from finished repairs', () => {
  it('is in order for every gate and lies among what they took', () => {
    const proposal = proposeEstimate(ROWS, SILLS, null)!
    for (const gate of GATES) {
      const { shortest, likely, longest } = proposal.gates[gate]!
      expect(shortest).toBeLessThanOrEqual(likely)
      expect(likely).toBeLessThanOrEqual(longest)
      const under = OWN.filter(({ gates }) => gates[gate].actual <= longest + 0.125).length
      expect(under / OWN.length, gate).toBeGreaterThan(0.75)
    }
  })

  it('expects the geometric mean of the hours: 8 and 18 give 12', () => {
    const two = OWN.slice(0, 2).map((row, index) => ({
      ...row,
      gates: { ...row.gates, welded: { ...row.gates.welded, actual: [8, 18][index]! } },
    }))
    expect(proposeEstimate(two, SILLS, null)?.gates.welded?.likely).toBe(12)
  })

  it('says what it is of the hours that people had estimated, and how far these lay apart', () => {
    const alike = OWN.slice(0, 8).map((row) => ({ ...row, gates: twice(row.gates) }))
    const { gates, taken } = proposeEstimate(alike, SILLS, null)!
    const expected = GATES.reduce((sum, gate) => sum + expectedHours(gates[gate]!), 0)
    expect(taken.over).toBeCloseTo(expected / 8, 9)
    expect([taken.repairs, taken.deviation]).toEqual([8, expect.closeTo(0, 12)])
    const earlier = proposeEstimate(
      [...alike, { ...alike[0]!, taken: true, gates: twice(OWN[9]!.gates, 40) }],
      SILLS,
      null,
    )!
    expect(earlier.taken.deviation).toBeCloseTo(0, 12)
  })

  it('goes by those that looked the same from outside where there are four', () => {
    const alike = OWN.filter(({ outside }) => outside === 'pitted')
    expect(alike.length).toBeGreaterThanOrEqual(4)
    const { rests, words } = proposeEstimate(ROWS, SILLS, 'pitted')!
    expect(rests).toEqual({ repairs: alike.length, outside: 'pitted' })
    expect(words).toBe(
      `From the hours that ${alike.length} finished repairs of this type that looked pitted from outside really took, hidden metal and rework among them.`,
    )
    const few = [...alike.slice(0, 3), ...OWN.filter(({ outside }) => outside === 'holed')]
    expect(proposeEstimate(few, SILLS, 'pitted')?.rests.outside).toBeNull()
  })

  it('says that one repair tells little', () => {
    expect(proposeEstimate(OWN.slice(0, 1), SILLS, null)?.words).toBe(
      'From the hours that 1 finished repair of this type really took, hidden metal and rework among them. With so few, its spread is mostly the usual one.',
    )
  })

  it('proposes nothing for a gate that most of them spent no hours on', () => {
    const idle = OWN.map((row) => ({
      ...row,
      gates: { ...row.gates, painted: { ...row.gates.painted, actual: 0 } },
    }))
    const { gates } = proposeEstimate(idle, SILLS, null)!
    expect(gates.painted).toBeNull()
    expect(gates.welded).not.toBeNull()
  })

  test.each([
    ['of a type of which none is finished', typeIdSchema.parse('type-bonnets')],
    ['without a type', null],
  ])('is not made for a repair %s', (_, typeId) => {
    expect(proposeEstimate(ROWS, typeId, 'holed')).toBeNull()
  })
})

/** Eight gates of an hour, each of which took two or so. */
const twice = (gates: FinishedRepair['gates'], before = 1): FinishedRepair['gates'] =>
  Object.fromEntries(
    GATES.map((gate) => [gate, { ...gates[gate], before, actual: 2 }]),
  ) as unknown as FinishedRepair['gates']
