import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { readPayload } from '../../db/journal-converters.ts'
import { verifyJournal } from '../support/verify-journal.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { carFileLine, type WrittenLine } from '../../domain/report/car-file-line.ts'
import { payloadSchema, payloadSchemaName } from '../../domain/report/car-file-schemas.ts'
import { carFileLineSchema, type CarFileLine } from '../../domain/report/car-file-shapes.ts'
import { NOTHING_MORE } from '../../domain/report/file-choices.ts'

/** The chain of the first car in the journal of a released version, as it leaves without anything that must be ticked. */
function linesOfVersion(version: number): readonly CarFileLine[] {
  const path = fileURLToPath(new URL(`../fixtures/journal-v${version}.ndjson`, import.meta.url))
  return readFileSync(path, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line) as WrittenLine)
    .filter(({ chain }) => String(chain) === 'car-s-101')
    .map((line) => carFileLineSchema.parse(carFileLine(line, readPayload(line), NOTHING_MORE)))
}

describe.each([1, 2, 3])('the journal of a car from version %i', (version) => {
  const lines = linesOfVersion(version)

  test('verifies', () => {
    expect(lines.length).toBeGreaterThan(100)
    const withheld = lines.filter(({ shown }) => shown !== 'whole').length
    expect(withheld).toBeGreaterThan(0)
    expect(verifyJournal(lines)).toEqual({
      ok: true,
      value: { lines: lines.length, hash: lines.at(-1)?.hash, withheld },
    })
  })

  test('follows the schemas that go with it, in the shapes that it was written in', () => {
    const ajv = new Ajv2020({ strict: true, strictRequired: false, validateFormats: false })
    const kinds = new Map<string, ReturnType<typeof ajv.compile>>()
    for (const line of lines) {
      const name = payloadSchemaName(line)
      if (name === null || line.shown === 'sealed') continue
      const validate = kinds.get(name) ?? ajv.compile(payloadSchema(name).schema)
      kinds.set(name, validate)
      const valid = validate(line.shown === 'whole' ? line.payload : line.redacted)
      expect([name, valid, validate.errors]).toEqual([name, true, null])
    }
    expect(kinds.has('estimateAccepted.version-1')).toBe(version === 1)
  })
})

describe('a journal that was changed', () => {
  const lines = linesOfVersion(3)
  const at =
    (index: number, change: object) =>
    (sound: readonly CarFileLine[]): readonly CarFileLine[] =>
      sound.map((line, each) => (each === index ? ({ ...line, ...change } as CarFileLine) : line))
  type Change = (sound: readonly CarFileLine[]) => readonly CarFileLine[]

  test.each<readonly [string, Change, string]>([
    ['a line left out', (sound) => sound.toSpliced(4, 1), 'Line 5'],
    ['two lines changed round', (sound) => sound.toSpliced(4, 2, sound[5]!, sound[4]!), 'Line 5'],
    ['another time', at(2, { happened: '2026-11-01T08:00:00Z' }), 'Line 3'],
    ['another payload', at(0, { payload: { name: 'Other' } }), 'Line 1'],
    ['another salt', at(0, { salt: '0'.repeat(32) }), 'Line 1'],
    ['a number that runs backwards', at(5, { number: 1 }), 'Line 6'],
    ['another hash', at(6, { hash: '0'.repeat(64) }), 'Line 7'],
    ['a line of another car', at(3, { chain: carIdSchema.parse('car-other') }), 'Line 4'],
    ['no lines', () => [], 'no lines'],
  ])('does not verify: %s', (_what, change, words) => {
    const result = verifyJournal(change(lines))
    expect(result).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
    if (!result.ok) expect(result.refusal.message).toContain(words)
  })
})
