import fc from 'fast-check'
import { expect, test } from 'vitest'
import { usualTruth } from '../support/workshop-truth.ts'
import { learnHistory } from '../../domain/estimate/estimate-history.ts'
import type { FinishedRepair } from '../../domain/estimate/finished-repair.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { typeIdSchema } from '../../domain/ids.ts'
import { createSimulatedWorkshop, simulatedHistory } from '../support/simulated-workshop.ts'
import { toldBy } from '../support/told-by.ts'
import { createEstimateHistory } from '../support/estimate-history.ts'

const ROWS = simulatedHistory(createSimulatedWorkshop(11), usualTruth(), 21)
const TYPES = [...new Set(ROWS.map(({ typeId }) => typeId)), null, typeIdSchema.parse('type-never-seen')]
const LAYERS = [...new Set(ROWS.flatMap(({ hidden }) => hidden.map(({ name }) => name)))]

const places = fc.nat({ max: ROWS.length - 1 })
const grades = fc.constantFrom<Grade | null>(null, ...GRADES)

/** What becomes of the row at one place of the whole story: other hours, another type, other grades, hours that were taken. */
const changes = fc.record({
  at: places,
  typeId: fc.constantFrom(...TYPES),
  outside: grades,
  worstHidden: grades,
  hidesNothing: fc.boolean(),
  taken: fc.boolean(),
  hours: fc.double({ min: 0.25, max: 40, noNaN: true }),
  gate: fc.constantFrom(...GATES),
})

type Change = typeof changes extends fc.Arbitrary<infer Of> ? Of : never

function changed(row: FinishedRepair, change: Change): FinishedRepair {
  const { typeId, outside, worstHidden, hidesNothing, taken, hours, gate } = change
  const gates = { ...row.gates, [gate]: { ...row.gates[gate], actual: hours, rework: hours / 4 } }
  const hidden = hidesNothing ? [] : row.hidden
  return { ...row, typeId, outside, worstHidden: hidesNothing ? null : worstHidden, hidden, taken, gates }
}

/** Each step takes rows out, puts rows in that were not there, and changes some. */
const steps = fc.array(
  fc.record({ out: fc.array(places), back: fc.array(places), changes: fc.array(changes, { maxLength: 4 }) }),
  { minLength: 1, maxLength: 6 },
)

test('what is learned from rows taken over from an earlier history is to the last digit what is learned anew', () => {
  fc.assert(
    fc.property(fc.uniqueArray(places, { minLength: 1 }), steps, (first, story) => {
      const rows = new Map(first.map((at) => [at, ROWS[at]!]))
      const inOrder = () => [...rows].toSorted(([a], [b]) => a - b).map(([, row]) => row)
      let history = learnHistory(inOrder())
      for (const step of story) {
        for (const at of step.out) rows.delete(at)
        for (const at of step.back) rows.set(at, rows.get(at) ?? ROWS[at]!)
        for (const change of step.changes) rows.set(change.at, changed(ROWS[change.at]!, change))
        history = learnHistory(inOrder(), history)
        const anew = createEstimateHistory(structuredClone(inOrder()))
        expect(toldBy(history, TYPES, LAYERS)).toEqual(toldBy(anew, TYPES, LAYERS))
      }
    }),
    { numRuns: 8 },
  )
})

test('rows of one act, which have one number, may come and go one by one', () => {
  const act = ROWS.slice(0, 4).map((row) => ({ ...row, finished: { number: 7, at: 7 } }))
  const rows = [...act, ...ROWS.slice(10, 20)]
  let history = learnHistory(rows)
  for (let at = 0; at < act.length; at += 1) {
    const others = rows.filter((row) => row !== act[at])
    history = learnHistory(others, history)
    expect(toldBy(history, TYPES, LAYERS)).toEqual(toldBy(learnHistory(others), TYPES, LAYERS))
  }
})
