import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { chainHead, readFacts } from '../../db/journal.ts'
import { linkHeads } from '../../db/link-heads.ts'
import { readWorkshop } from '../../db/reads.ts'
import { reportIdSchema, visitIdSchema } from '../../domain/ids.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

interface RawLine {
  readonly number: number
  readonly chain: string
  readonly chain_number: number
  readonly digest: string
  readonly prev: string
  readonly hash: string
  readonly json: string
  readonly salt: Buffer
}

const rawLines = ({ db }: Workshop): readonly (RawLine & Record<string, unknown>)[] =>
  db.writer.sqlite.prepare('SELECT * FROM journal JOIN payload USING (number) ORDER BY number').all() as never

const sha256 = (...parts: readonly (string | Buffer)[]): string => {
  const hash = createHash('sha256')
  for (const part of parts) hash.update(part)
  return hash.digest('hex')
}

describe('a line of the journal', () => {
  // SHA-256 of 'abc', FIPS 180-4 example: the hash that the lines are checked with below is the published one.
  test('is hashed with SHA-256', () => {
    expect(sha256('abc')).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad')
  })

  test('holds the digest of its payload with a salt of its own, so that equal payloads cannot be told from it', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    for (const _ of ['once', 'twice']) workshop.run('addNote', { text: 'The same.' }, { carId })
    const [first, second] = rawLines(workshop).slice(-2)
    expect(first?.json).toBe('{"text":"The same."}')
    expect(first?.json).toBe(second?.json)
    expect(first?.digest).not.toBe(second?.digest)
    for (const line of rawLines(workshop)) expect(line.digest).toBe(sha256(line.salt, line.json))
  })

  test('holds the hash over everything it says, written down here by hand', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    workshop.run('addNote', { text: 'Hello.' }, { carId })
    const line = rawLines(workshop).at(-1)!
    // Canonical JSON: keys in alphabetical order, no blanks.
    const said =
      `{"by":"person-manager","chain":"car-s-101","chainNumber":3,"commandId":"${String(line.command_id)}",` +
      `"device":"device-desk","digest":"${line.digest}","happened":"2026-11-23T08:00:00+01:00","kind":"noted",` +
      `"made":"2026-11-23T07:00:00.000Z","number":${line.number},"prev":"${line.prev}",` +
      `"recorded":"2026-11-23T07:00:00.000Z","version":3,"visitId":"visit-s-101"}`
    expect(line.hash).toBe(sha256(said))
  })

  test('follows the line before it in its own chain; numbers go through all chains without gaps', () => {
    const workshop = createWorkshop()
    const cars = [workshop.addCar('Larkspur 4', 'S-101'), workshop.addCar('Teasel', 'S-102')]
    for (const text of ['a', 'b', 'c']) for (const carId of cars) workshop.run('addNote', { text }, { carId })
    const lines = rawLines(workshop)
    expect(lines.map(({ number }) => number)).toEqual(lines.map((_, index) => index + 1))
    for (const chain of Map.groupBy(lines, (line) => line.chain).values()) {
      expect(chain.map((line) => line.chain_number)).toEqual(chain.map((_, index) => index + 1))
      expect(chain.map((line) => line.prev)).toEqual([
        '0'.repeat(64),
        ...chain.slice(0, -1).map((line) => line.hash),
      ])
    }
    expect(new Set(lines.map(({ chain }) => chain))).toEqual(new Set(['the workshop', ...cars]))
  })

  test('can neither be changed nor taken out, and no more can its payload', () => {
    const workshop = createWorkshop()
    const { sqlite } = workshop.db.writer
    for (const table of ['journal', 'payload']) {
      expect(() => sqlite.exec(`DELETE FROM ${table} WHERE number = 1`)).toThrow(/stay/)
      const column = table === 'journal' ? 'happened' : 'json'
      expect(() => sqlite.exec(`UPDATE ${table} SET ${column} = ''`)).toThrow(/do not change/)
    }
  })
})

describe('the heads of the chains', () => {
  test('are linked into the chain of the workshop, and not again before something has changed', () => {
    const workshop = createWorkshop()
    expect(linkHeads(workshop.db, workshop.now)).toBe(false)
    const first = workshop.addCar('Larkspur 4', 'S-101')
    const second = workshop.addCar('Teasel', 'S-102')
    expect(linkHeads(workshop.db, workshop.now)).toBe(true)
    expect(linkHeads(workshop.db, workshop.now)).toBe(false)
    expect(readFacts(workshop.db, null).at(-1)).toMatchObject({
      kind: 'headsLinked',
      by: null,
      payload: {
        heads: { [first]: chainHead(workshop.db, first), [second]: chainHead(workshop.db, second) },
      },
    })
    workshop.run('addNote', { text: 'Something.' }, { carId: first })
    expect(linkHeads(workshop.db, workshop.now)).toBe(true)
    expect(readFacts(workshop.db, null).at(-1)).toMatchObject({
      payload: { heads: { [first]: chainHead(workshop.db, first) } },
    })
    expect(readWorkshop(workshop.db).setUp).toBe(true)
  })

  test('are linked in the same step that issues a report', () => {
    const workshop = createWorkshop()
    const carId = workshop.addCar()
    const head = chainHead(workshop.db, carId)
    const answer = workshop.run(
      'issueReport',
      {
        reportId: reportIdSchema.parse('report-week-48'),
        visitId: visitIdSchema.parse('visit-s-101'),
        week: '2026-W48',
        sha256: 'ab'.repeat(32),
        head,
        words: '',
        page: null,
        photos: [],
        crops: [],
        names: false,
        dates: 'range',
        language: 'en',
        title: 'Larkspur 4, week 48',
      },
      { carId },
    )
    expect(answer.numbers).toHaveLength(1)
    expect(answer.revision).toBe(answer.numbers[0]! + 1)
    expect(chainHead(workshop.db, carId)).not.toBe(head)
    expect(readFacts(workshop.db, null).at(-1)).toMatchObject({
      number: answer.revision,
      kind: 'headsLinked',
      payload: { heads: { [carId]: chainHead(workshop.db, carId) } },
    })
  })
})
