import { cpSync, existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { openDatabase } from '../../../db/open-database.ts'
import { takeIn, type TakeInOptions } from '../../../electron/whole/take-in.ts'
import { recordPhoto } from '../../../db/photo-rows.ts'
import { inspectPhoto } from '../../../db/photos/inspect-photo.ts'
import { openPhotoStore } from '../../../db/photos/photo-store.ts'
import { photosFolder } from '../../../db/data-paths.ts'
import { createTestPhoto } from '../../support/images.ts'
import { folderForFile, listAnew, namesIn, takeOutTo } from '../../support/whole.ts'
import { createWorkshop } from '../../support/workshop.ts'
import { filesBelow } from '../../support/bags.ts'

const { folder, remove } = folderForFile()
const out = join(folder, 'out')
/** Each test has its own copy of the bag, and a place where nothing is yet. */
let here: string
let bag: string
let dataDir: string
let tests = 0

beforeAll(async () => {
  const workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
  const store = await openPhotoStore(photosFolder(workshop.dataDir!), { inspect: inspectPhoto })
  const stored = store.ok
    ? await store.value.add(await createTestPhoto({ width: 60, height: 40, color: '#933' }))
    : store
  if (!stored.ok) throw new Error(stored.problem.message)
  recordPhoto(workshop.db, stored.value, workshop.now)
  await takeOutTo(workshop.dataDir!, out)
  workshop.close()
})
afterAll(remove)

beforeEach(() => {
  tests += 1
  here = join(folder, `test-${tests}`)
  bag = join(here, 'bag')
  dataDir = join(here, 'data')
  cpSync(out, bag, { recursive: true })
})

/** Whatever is refused leaves nothing: neither a data folder nor a half-written one. */
async function refused(options?: TakeInOptions): Promise<string> {
  const before = namesIn(here)
  const taken = await takeIn(bag, dataDir, options)
  expect(namesIn(here)).toEqual(before)
  return taken.ok ? 'It was taken in.' : `${taken.refusal.message} ${taken.refusal.next}`
}

function change(path: string, from: string | RegExp, to: string): void {
  const text = readFileSync(join(bag, path), 'utf8')
  const changed = text.replace(from, to)
  expect(changed).not.toBe(text)
  writeFileSync(join(bag, path), changed)
}

const photo = () => join(bag, 'data/photos', filesBelow(join(bag, 'data/photos'))[0]!)

describe('nothing is taken in of', () => {
  test('a bag with one changed byte', async () => {
    const bytes = readFileSync(photo())
    bytes[20]! ^= 1
    writeFileSync(photo(), bytes)
    expect(await refused()).toContain('data/photos/')
  })

  test('a workshop whose photo is missing, although no list names it', async () => {
    rmSync(photo())
    listAnew(bag)
    expect(await refused()).toMatch(/^photos\/.* is missing from the bag/)
  })

  test('a photo whose bytes are others than its name says, although the lists say so too', async () => {
    writeFileSync(photo(), await createTestPhoto({ width: 60, height: 40, color: '#396' }))
    listAnew(bag)
    expect(await refused()).toMatch(/is not sound: The photo .* (changed|other)/)
  })

  test('a journal that was rewritten, although the lists fit it', async () => {
    change('data/journal.jsonl', 'Larkspur 4', 'Larkspur 5')
    listAnew(bag)
    expect(await refused()).toMatch(
      /is not sound: Line \d+ of the journal.*its payload is not what was recorded/,
    )
  })

  test('a journal whose last line was cut off, when answers name it', async () => {
    change('data/journal.jsonl', /[^\n]*\n$/, '')
    listAnew(bag)
    expect(await refused()).toContain('does not name the lines that it left')
  })

  test('a line that is no record', async () => {
    change('data/contacts.jsonl', '"phone"', '"fax"')
    listAnew(bag)
    expect(await refused()).toContain('Line 1 of contacts.jsonl cannot be read.')
  })

  test('a setting that belongs to a computer', async () => {
    writeFileSync(join(bag, 'data/settings.jsonl'), '{"name":"network","value":"open"}\n')
    listAnew(bag)
    expect(await refused()).toContain('Line 1 of settings.jsonl cannot be read.')
  })

  test('a file that ends in the middle of a line', async () => {
    change('data/contacts.jsonl', /.\n$/, '')
    listAnew(bag)
    expect(await refused()).toContain('ends in the middle of a line')
  })

  test('records that contradict each other', async () => {
    const text = readFileSync(join(bag, 'data/contacts.jsonl'), 'utf8')
    writeFileSync(join(bag, 'data/contacts.jsonl'), text + text)
    listAnew(bag)
    expect(await refused()).toContain('contradict each other')
  })

  test('a bag without a file of records', async () => {
    rmSync(join(bag, 'data/plans.jsonl'))
    listAnew(bag)
    expect(await refused()).toContain('plans.jsonl is missing from the bag.')
  })

  test.each([/(Format-Version: )1/, /(Fact-Version: )\d+/])(
    'a workshop of a newer program (%s)',
    async (label) => {
      change('bag-info.txt', label, '$199')
      listAnew(bag)
      expect(await refused()).toContain('newer Panelwright')
    },
  )

  test('a line of a newer program', async () => {
    change('data/journal.jsonl', '"kind":"carAdded"', '"kind":"carPolished"')
    listAnew(bag)
    expect(await refused()).toMatch(/Line \d+ of the journal was written by a newer Panelwright/)
  })

  test('a bag that holds something else', async () => {
    change('bag-info.txt', 'Panelwright-Format: the whole workshop', 'Panelwright-Format: a car')
    listAnew(bag)
    expect(await refused()).toContain('does not hold a whole workshop')
  })

  test('a folder that is no bag', async () => {
    rmSync(join(bag, 'bagit.txt'))
    expect(await refused()).toContain('no bag')
  })

  test.each(['Verifying', 'Taking in the records', 'Taking in photos', 'Checking'])(
    'what is stopped (at: %s)',
    async (step) => {
      const stop = new AbortController()
      const onStep = (words: string) => words.startsWith(step) && stop.abort()
      expect(await refused({ signal: stop.signal, onStep })).toContain('This was stopped')
    },
  )
})

describe('the folder to take it in to', () => {
  test('may be there, when it is empty', async () => {
    mkdirSync(dataDir)
    expect(await takeIn(bag, dataDir)).toMatchObject({
      ok: true,
      value: { name: 'Brookside Metalwork', files: 1 },
    })
    rmSync(dataDir, { recursive: true })
  })

  test('is left as it is when something lies in it', async () => {
    mkdirSync(dataDir)
    writeFileSync(join(dataDir, 'note.txt'), 'Mine')
    expect(await refused()).toContain('is not empty')
    expect(namesIn(dataDir)).toEqual(['note.txt'])
    rmSync(dataDir, { recursive: true })
  })

  test('is left as it is when a workshop is at work in it', async () => {
    const db = openDatabase(dataDir)
    expect(await refused()).toContain(`There is a workshop in ${dataDir} already.`)
    db.close()
    rmSync(dataDir, { recursive: true })
  })

  test('cannot lie where nothing can be written', async () => {
    writeFileSync(join(here, 'file'), '')
    dataDir = join(here, 'file', 'data')
    expect(await refused()).toContain('no folder')
    rmSync(join(here, 'file'))
  })

  test('gets a key of its own and no code of anybody', async () => {
    expect((await takeIn(bag, dataDir)).ok).toBe(true)
    expect(existsSync(join(dataDir, 'private', 'code-key'))).toBe(true)
    const db = openDatabase(dataDir, { readonly: true })
    for (const table of ['code', 'code_lock', 'device', 'session'])
      expect(db.reader.sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get(), table).toBe(0)
    db.close()
    rmSync(dataDir, { recursive: true })
  })
})
