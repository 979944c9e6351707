import { expect, test } from 'vitest'
import { mutateLines } from '../soak/fuzz-bytes.ts'
import { runFuzz } from '../soak/fuzz.ts'
import { faultOf } from '../soak/fuzz-judge.ts'
import { createMutator, toJsonText } from '../soak/fuzz-values.ts'
import { createRandom } from '../support/random.ts'

// `npm run soak -- fuzz` asks far more of the same.
test(
  'two thousand strange commands, calls, files and addresses crash nothing, are answered in words and leave a clean journal',
  { timeout: 300_000 },
  async () => {
    const figures = await runFuzz(2_000, 20_261_128)
    expect(figures.problems).toEqual([])
    expect(figures.cases).toBe(2_000)
    // Enough of them are nearly right, or nothing of the workshop's rules would be asked.
    expect(figures.granted).toBeGreaterThan(200)
    expect(Object.keys(figures.doors).toSorted()).toEqual([
      'address',
      'bag',
      'call',
      'command',
      'copy',
      'csv',
      'image',
      'whole',
    ])
  },
)

const answer = (status: number, text: string, type = 'application/json') => ({ status, type, text, bytes: 1 })

test('an answer without a stated status, a code of the list or words is a fault', () => {
  const refusal = { code: 'unknown', message: 'It is not there.', next: 'Choose another one.' }
  const said = (data: object) => JSON.stringify({ result: { data: { ok: false, ...data } } })
  expect(faultOf(answer(200, said({ refusal })), false)).toBeNull()
  expect(faultOf(answer(200, said({ refusal: { ...refusal, code: 'other' } })), false)).toContain("'other'")
  expect(faultOf(answer(200, said({ refusal: { ...refusal, next: '' } })), false)).toContain('without words')
  expect(faultOf(answer(500, JSON.stringify({ ok: false, refusal })), false)).toContain('status 500')
  expect(faultOf(answer(404, '{}'), false)).toContain('without a refusal')
  expect(faultOf(answer(404, '{"error":{"data":{"refusal":null}}}'), false)).toContain('undefined')
  expect(faultOf(answer(404, '', 'text/plain'), false)).toContain('without words')
  expect(faultOf(answer(404, '', 'text/plain'), true)).toBeNull()
  expect(faultOf(answer(200, '{"0":[]}\n[0,1]\n'), false)).toBeNull()
  expect(faultOf(answer(200, '{"0":[]}\n[0,'), false)).toContain('cannot be read')
})

test('the same seed draws the same strange values, with keys of prototypes, endless numbers and halves of characters', () => {
  const draw = () => {
    const mutator = createMutator(createRandom(7), [{ carId: 'car-s-101' }], 7)
    const plain = { carId: 'car-s-102', at: [1, 2, { done: true }] }
    return Array.from({ length: 300 }, () => toJsonText(mutator.mutate(plain)))
  }
  const texts = draw()
  expect(texts).toEqual(draw())
  for (const each of ['"__proto__"', '1e400', '\\ud800', '"car-s-101"', '[]'])
    expect(
      texts.some((text) => text.includes(each)),
      each,
    ).toBe(true)
  // All of it is JSON, so that a host refuses it for what it says.
  expect(texts.map((text): unknown => JSON.parse(text))).toHaveLength(300)
})

test('a table stays mostly a table', () => {
  const random = createRandom(3)
  const texts = Array.from({ length: 200 }, () => mutateLines('a,b\n1,2\n3,4', random, () => 'x'))
  expect(new Set(texts).size).toBeGreaterThan(30)
  expect(texts.filter((text) => text.startsWith('a,b\n')).length).toBeGreaterThan(80)
})
