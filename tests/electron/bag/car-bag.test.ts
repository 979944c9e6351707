import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { photosFolder } from '../../../db/data-paths.ts'
import { originalPath } from '../../../db/photos/photo-files.ts'
import { verifyJournal } from '../../support/verify-journal.ts'
import { carIdSchema } from '../../../domain/ids.ts'
import { ok } from '../../../domain/refusal.ts'
import type { CarBook } from '../../../domain/report/car-book-shapes.ts'
import { payloadSchemaName } from '../../../domain/report/car-file-schemas.ts'
import {
  carFileLineSchema,
  carFilePeopleSchema,
  carFilePhotoSchema,
  carFileWorkshopSchema,
  type CarFileLine,
} from '../../../domain/report/car-file-shapes.ts'
import { NOTHING_MORE, type FileChoices } from '../../../domain/report/file-choices.ts'
import { carBag } from '../../../electron/bag/car-bag.ts'
import { readBag } from '../../../electron/bag/read-bag.ts'
import { writeBagFolder } from '../../../electron/bag/write-bag.ts'
import { BAG_LIMITS, describeBagTools, filesBelow, runTool, sha256Of } from '../../support/bags.ts'
import { carWithEveryKind, type FiledCar } from '../../support/car-file.ts'

let filed: FiledCar
let folder: string
/** Folder of the bag without what must be ticked, and of the one with all of it. */
let plain: string
let full: string

const everything: FileChoices = { contacts: true, prices: true, hours: true }

/** The book is printed once, in a test of its own. */
const usual = () => ({
  choices: NOTHING_MORE,
  scratch: folder,
  makeBook: async (book: CarBook, to: string) => {
    await writeFile(to, `%PDF a book of ${book.car}`)
    return ok(null)
  },
})

async function write(choices: FileChoices, name: string): Promise<string> {
  const { db, now } = filed.workshop
  const made = await carBag(db, filed.carId, { ...usual(), choices, now })
  if (!made.ok) throw new Error(made.refusal.message)
  const written = await writeBagFolder(made.value.bag, join(folder, name))
  if (!written.ok) throw new Error(written.refusal.message)
  return join(folder, name)
}

beforeAll(async () => {
  filed = await carWithEveryKind()
  folder = mkdtempSync(join(tmpdir(), 'car-file-'))
  plain = await write(NOTHING_MORE, 'plain')
  full = await write(everything, 'full')
})

afterAll(() => {
  filed.workshop.close()
  rmSync(folder, { recursive: true })
})

const read = (bag: string, path: string): string => readFileSync(join(bag, 'data', path), 'utf8')
const rowsOf = (bag: string, path: string): unknown[] =>
  read(bag, path)
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => JSON.parse(line) as unknown)
const linesOf = (bag: string): CarFileLine[] =>
  rowsOf(bag, 'journal.jsonl').map((line) => carFileLineSchema.parse(line))

interface Written {
  readonly number: number
  readonly kind: string
  readonly json: string
  readonly salt: Buffer
}
const writtenLines = (): readonly Written[] =>
  filed.workshop.db.reader.sqlite
    .prepare('SELECT * FROM journal JOIN payload USING (number) WHERE chain = ? ORDER BY number')
    .all(filed.carId) as never

describe.each([
  ['without what must be ticked', () => plain],
  ['with everything', () => full],
])('the file of a car %s', (_how, bag) => {
  test('is a bag that verifies', async () => {
    const opened = await readBag(bag(), BAG_LIMITS)
    expect(opened).toMatchObject({ ok: true })
    if (opened.ok) await opened.value.close()
  })

  test('holds every line of the chain, and they verify', () => {
    const lines = linesOf(bag())
    expect(lines.map(({ number }) => number)).toEqual(writtenLines().map(({ number }) => number))
    const withheld = lines.filter(({ shown }) => shown !== 'whole').length
    expect(verifyJournal(lines)).toEqual({
      ok: true,
      value: { lines: lines.length, hash: lines.at(-1)?.hash, withheld },
    })
  })

  test('verifies by the recipe of its README alone', () => {
    const sha256 = (data: string | Buffer) => createHash('sha256').update(data).digest('hex')
    let prev = '0'.repeat(64)
    for (const row of rowsOf(bag(), 'journal.jsonl') as Record<string, unknown>[]) {
      expect(row.prev).toBe(prev)
      prev = row.hash as string
      if (row.shown === 'sealed') continue
      const { shown: _s, hash: _h, payload, salt, redacted: _r, withheld: _w, ...said } = row
      expect(row.hash).toBe(sha256(sortedJson(said)))
      if (row.shown !== 'whole') continue
      const salted = Buffer.concat([Buffer.from(salt as string, 'hex'), Buffer.from(sortedJson(payload))])
      expect(row.digest).toBe(sha256(salted))
    }
  })

  test('holds the photos as they were taken, and a line for each', () => {
    const photos = rowsOf(bag(), 'photos.jsonl').map((row) => carFilePhotoSchema.parse(row))
    expect([...new Set(photos.map(({ sha256 }) => sha256))]).toEqual(filed.photos)
    for (const { file, sha256 } of photos) expect(sha256Of(join(bag(), 'data', file))).toBe(sha256)
  })

  test('says in words and in data what it is', () => {
    const { head, car } = carFileWorkshopSchema.parse(JSON.parse(read(bag(), 'workshop.json')))
    expect(car).toMatchObject({ carId: filed.carId, name: 'Larkspur Four', year: 1962 })
    expect(head.hash).toBe(linesOf(bag()).at(-1)?.hash)
    expect(read(bag(), 'README.txt')).toContain(head.hash)
    expect(readFileSync(join(bag(), 'bag-info.txt'), 'utf8')).toContain(`Chain-Head-SHA256: ${head.hash}`)
    for (const line of read(bag(), 'README.txt').split('\n')) expect(line.length).toBeLessThanOrEqual(110)
  })

  test('has a schema of draft 2020-12 for every line and payload, which they follow', () => {
    const ajv = new Ajv2020({ strict: true, strictRequired: false, validateFormats: false, allErrors: true })
    const validatorOf = (name: string) => {
      const schema = JSON.parse(read(bag(), `schema/${name}.schema.json`)) as { readonly $schema: string }
      expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
      return ajv.compile(schema)
    }
    const isLine = validatorOf('journal-line')
    const isPhoto = validatorOf('photo-line')
    for (const row of rowsOf(bag(), 'photos.jsonl'))
      expect([isPhoto(row), isPhoto.errors]).toEqual([true, null])
    const kinds = new Map<string, ReturnType<typeof validatorOf>>()
    for (const line of linesOf(bag())) {
      expect([isLine(line), isLine.errors]).toEqual([true, null])
      const name = payloadSchemaName(line)
      if (name === null || line.shown === 'sealed') continue
      const validate = kinds.get(name) ?? validatorOf(name)
      kinds.set(name, validate)
      const payload = line.shown === 'whole' ? line.payload : line.redacted
      expect([name, validate(payload), validate.errors]).toEqual([name, true, null])
      expect([name, validate({ ...payload, unheard: 'of' })]).toEqual([name, false])
    }
  })
})

describe('what must be ticked', () => {
  const owner = ['R. Okafor', 'okafor@example.org', '4 Quay Lane']
  /** As data and as words; a digest may hold the figures alone. */
  const prices = ['"amount":4250', '"amount":3990', '42.50', '39.90', '": 4250']
  const hourKinds = [
    'clockStarted',
    'clockStopped',
    'clockConfirmed',
    'timeLogged',
    'timeCorrected',
    'leftSaid',
  ]
  const bytesOf = (bag: string) =>
    filesBelow(bag).map((path) => [path, readFileSync(join(bag, path)).toString('latin1')] as const)
  const holding = (bag: string, text: string) =>
    bytesOf(bag).flatMap(([path, bytes]) => (bytes.includes(text) ? [path] : []))

  test('is in no file: no contact, no price, no word to the owner, no salt of what is withheld', () => {
    const withheld = linesOf(plain).filter(({ shown }) => shown !== 'whole')
    const salts = writtenLines().filter(({ number }) => withheld.some((line) => line.number === number))
    expect(salts.length).toBeGreaterThan(8)
    const secrets = [
      ...owner,
      ...prices,
      'The boot floor is open.',
      ...salts.map(({ salt }) => salt.toString('hex')),
      ...salts.map(({ salt }) => salt.toString('latin1')),
      ...salts.map(({ json }) => json),
    ]
    for (const secret of secrets) expect([secret, holding(plain, secret)]).toEqual([secret, []])
  })

  test('hides who worked when, not only for how long', () => {
    const kinds = linesOf(plain).filter(({ kind }) => hourKinds.includes(kind))
    expect(new Set(kinds.map(({ kind }) => kind))).toEqual(new Set(hourKinds))
    for (const line of kinds) {
      expect(line.shown).toBe('sealed')
      expect(Object.keys(line).toSorted()).toEqual([
        'chain',
        'chainNumber',
        'digest',
        'hash',
        'kind',
        'number',
        'prev',
        'shown',
        'version',
        'withheld',
      ])
    }
  })

  test('names those who acted, and the firm, but no owner', () => {
    const people = carFilePeopleSchema.parse(JSON.parse(read(plain, 'people.json')))
    expect(people.people.map(({ name }) => name)).toContain('Tomasz Hale')
    expect(people.parties.map(({ kind, contact }) => [kind, contact])).toEqual([['firm', null]])
  })

  test('is there where it was ticked', () => {
    for (const text of [...owner, ...prices.slice(0, 2), 'The boot floor is open.'])
      expect([text, holding(full, text).length > 0]).toEqual([text, true])
    expect(linesOf(full).every(({ shown }) => shown === 'whole')).toBe(true)
    expect(filesBelow(full).filter((path) => path.startsWith('data/reports/'))).toHaveLength(2)
    expect(filesBelow(plain).filter((path) => path.startsWith('data/reports/'))).toEqual([])
  })

  test('leaves the rest of what was withheld to be read', () => {
    const spent = linesOf(plain).find(({ kind }) => kind === 'costSpent')
    expect(spent).toMatchObject({
      shown: 'part',
      withheld: ['prices'],
      redacted: { name: 'Steel sheet 1 mm' },
    })
  })
})

describe('what cannot be written', () => {
  test('a car that is not there', async () => {
    const { db, now } = filed.workshop
    const made = await carBag(db, carIdSchema.parse('car-unknown'), { ...usual(), now })
    expect(made).toMatchObject({ ok: false, refusal: { code: 'unknown' } })
  })

  test('a missing original is named before anything is written', async () => {
    const { db, now, dataDir } = filed.workshop
    const place = originalPath(photosFolder(dataDir!), filed.photos[0]!)
    renameSync(place, `${place}-away`)
    const made = await carBag(db, filed.carId, { ...usual(), now })
    renameSync(`${place}-away`, place)
    expect(made).toMatchObject({ ok: false, refusal: { code: 'storage' } })
    if (!made.ok) expect(made.refusal.message).toContain(filed.photos[0]!.slice(0, 12))
  })

  test('an original that was changed ends the writing with its name and leaves nothing', async () => {
    const { db, now, dataDir } = filed.workshop
    const place = originalPath(photosFolder(dataDir!), filed.photos[0]!)
    const bytes = readFileSync(place)
    const made = await carBag(db, filed.carId, { ...usual(), now })
    if (!made.ok) throw new Error(made.refusal.message)
    writeFileSync(place, Buffer.concat([bytes, Buffer.from('x')]))
    mkdirSync(join(folder, 'away'))
    const written = await writeBagFolder(made.value.bag, join(folder, 'away', 'bag'))
    writeFileSync(place, bytes)
    expect(written).toMatchObject({ ok: false, refusal: { code: 'storage' } })
    if (!written.ok) expect(written.refusal.message).toContain('no longer what was stored')
    expect(filesBelow(join(folder, 'away'))).toEqual([])
  })
})

describeBagTools('by tools that are not ours', () => {
  test('sha256sum finds all as listed', () => {
    const check = (list: string) => runTool('sha256sum', ['-c', '--strict', '--quiet', list], plain)
    expect(['manifest-sha256.txt', 'tagmanifest-sha256.txt'].map(check)).toEqual(['', ''])
  })

  test('the program in the README verifies the record, and finds a changed line', () => {
    const program = /--- begin ---\n([^]*)--- end ---/.exec(read(plain, 'README.txt'))?.[1] ?? ''
    const out = runTool('python3', ['-c', program], join(plain, 'data'))
    const lines = linesOf(plain)
    expect(out).toBe(`${lines.length} ${lines.at(-1)?.hash}\n`)
    const broken = join(folder, 'broken')
    mkdirSync(broken)
    writeFileSync(
      join(broken, 'journal.jsonl'),
      read(plain, 'journal.jsonl').replace('Larkspur 4', 'Larkspur 5'),
    )
    expect(() => runTool('python3', ['-c', program], broken)).toThrow('Line 1 is not what was recorded.')
  })
})

/** RFC 8785 for what occurs here: keys sorted by UTF-16, no blanks, numbers and texts as JavaScript writes them. */
function sortedJson(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(sortedJson).join(',')}]`
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  const entries = Object.entries(value).toSorted(([a], [b]) => (a < b ? -1 : 1))
  return `{${entries.map(([key, each]) => `${JSON.stringify(key)}:${sortedJson(each)}`).join(',')}}`
}
