import { mkdtempSync, readdirSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, onTestFinished, test } from 'vitest'
import { cameJournalPath } from '../../../db/brought-in-files.ts'
import { checkDatabase } from '../../../db/check.ts'
import { contactBook } from '../../../db/contacts.ts'
import { broughtInFolder, cameFilesFolder } from '../../../db/data-paths.ts'
import { chainHead, lastNumber, readFacts } from '../../../db/journal.ts'
import { rebuildDerived } from '../../../db/rebuild-derived.ts'
import { readAllCars, readWorkshop } from '../../../db/reads.ts'
import type { CarId } from '../../../domain/ids.ts'
import { NOTHING_MORE } from '../../../domain/report/file-choices.ts'
import { hoursTable } from '../../../domain/report/hours-table.ts'
import { variationsTable } from '../../../domain/report/variations-table.ts'
import { carView } from '../../../domain/views/car-view.ts'
import { recordView } from '../../../domain/views/record-view.ts'
import { createViewContext } from '../../../domain/views/view-context.ts'
import { ownerDecisionsView } from '../../../domain/views/owner-decisions-view.ts'
import { carWarnings } from '../../../domain/watch/car-warnings.ts'
import { EVERYTHING } from '../../support/came-car.ts'
import {
  archiveOf,
  createReceiver,
  damaged,
  forged,
  refusalOf,
  sure,
  withoutLine,
  type Receiver,
} from '../../support/came-file.ts'
import { carWithEveryKind, type FiledCar } from '../../support/car-file.ts'
import { createWorkshop, manager, owner, welder, type Workshop } from '../../support/workshop.ts'

let filed: FiledCar
let folder: string
let full: string
let plain: string
let here: Receiver

beforeAll(async () => {
  filed = await carWithEveryKind()
  folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  full = await archiveOf(filed.workshop, filed.carId, EVERYTHING, folder)
  plain = await archiveOf(filed.workshop, filed.carId, NOTHING_MORE, folder)
})

afterAll(() => {
  filed.workshop.close()
  rmSync(folder, { recursive: true })
})

beforeEach(async () => {
  here = await createReceiver()
  here.workshop.now = filed.workshop.now
})

afterEach(() => here.close())

const faults = async ({ workshop, photos }: Receiver) => {
  const findings = await checkDatabase(workshop.db, photos)
  return findings.filter(({ severity }) => severity === 'fault').map(({ what }) => what)
}

const viewsOf = (workshop: Workshop, carId: CarId) => {
  const { nameOf } = contactBook(workshop.db)
  const car = workshop.car(carId)
  const input = { now: filed.workshop.now, workshop: readWorkshop(workshop.db), nameOf }
  const facts = readFacts(workshop.db, carId)
  const record = recordView({ ...input, facts, head: chainHead(workshop.db, carId), showsMoney: true })
  return { car: carView({ ...input, car }), record, input, state: car }
}

/** A workshop to which no car has come. */
const createdAlike = () => {
  const alike = createWorkshop()
  onTestFinished(() => alike.close())
  return alike.db
}

const keptJournal = ({ workshop }: Receiver): string => {
  const folder = broughtInFolder(workshop.dataDir ?? '')
  const [name = ''] = readdirSync(folder)
  return cameJournalPath(folder, name.replace('.jsonl', ''))
}

/** What a record says, without what a new number or other books change in it. */
const wordsOf = ({ record }: ReturnType<typeof viewsOf>) =>
  record.lines.map(({ words, by, happened }) => `${happened} ${by}: ${words.replace(/Line \d+ v/, 'Line v')}`)

describe('a car that comes with its file', () => {
  test('is shown with its repairs, gates, photos and record as the other workshop showed it', async () => {
    const there = viewsOf(filed.workshop, filed.carId)
    const came = viewsOf(here.workshop, await here.take(full))
    for (const part of ['covers', 'fitGroups', 'sections', 'dimensions', 'photos', 'holds'] as const)
      expect(came.car[part], part).toEqual(there.car[part])
    const bare = ({ repairs }: typeof came.car) => repairs.map(({ id, name, marks }) => ({ id, name, marks }))
    expect(bare(came.car)).toEqual(bare(there.car))
    const known = new Set(wordsOf(there))
    const [closing, ...lines] = wordsOf(came)
    expect(closing).toMatch(/Brought in with its file from Brookside Metalwork: \d+ lines, chain verified$/)
    const others = lines.filter((line) => !known.has(line))
    // The money that was agreed with the lines stays in the other workshop's books.
    expect(others).toEqual([expect.stringContaining('50 estimate lines accepted by the owner, by letter')])
  })

  test('passes the check with the journal that came, and its record reads back to the same car', async () => {
    const carId = await here.take(full)
    expect(await faults(here)).toEqual([])
    const before = here.workshop.car(carId)
    rebuildDerived(here.workshop.db)
    expect(here.workshop.car(carId)).toEqual(before)
    rmSync(keptJournal(here))
    expect(await faults(here)).toEqual([
      'The journal that came from Brookside Metalwork is missing or is not what came.',
    ])
  })

  test('brings no hour, estimate, finished repair or booking into the figures of this workshop', async () => {
    const carId = await here.take(full)
    const { sqlite } = here.workshop.db.reader
    const rows = (table: string) => sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get()
    const tables = ['variance_sum', 'variance_visit', 'variance_day', 'planned_amount', 'finished_repair']
    for (const table of [...tables, 'time_entry', 'booking', 'report']) expect(rows(table), table).toBe(0)
    const car = here.workshop.car(carId)
    expect(car.entries.size).toBeGreaterThan(0)
    expect([...car.visits.values()].map(({ status, from }) => `${status}, ${from}`)).toEqual([
      'delivered, Brookside Metalwork',
      'delivered, Brookside Metalwork',
    ])
    const { input } = viewsOf(here.workshop, carId)
    const context = createViewContext(input)
    const range = { from: null, to: null }
    expect([...hoursTable([car], { range, by: manager, context }).rows]).toEqual([])
    expect([...variationsTable([car], context).rows]).toEqual([])
    const decisions = ownerDecisionsView({ ...input, cars: [car] })
    expect(Object.values(decisions).flat()).toEqual([])
    expect(carWarnings(car, context)).toEqual([])
  })

  test('comes without hours, prices and contacts too, and names what was kept back', async () => {
    const came = sure(await here.receive(plain))
    expect(came.preview.withheld).toEqual(['contacts', 'prices', 'hours'])
    expect(came.preview.withheldLines).toBeGreaterThan(5)
    const carId = sure(await here.bringIn(came.fileId)).carId
    expect(here.workshop.car(carId).entries.size).toBe(0)
    const there = viewsOf(filed.workshop, filed.carId)
    const { car, record } = viewsOf(here.workshop, carId)
    expect(car.sections).toEqual(there.car.sections)
    expect(car.photos).toEqual(there.car.photos)
    expect(record.lines[0]?.words).toContain(`${came.preview.withheldLines} of them without their content`)
    expect(await faults(here)).toEqual([])
  })

  test('is told before it comes in: from whom, when, how much, and what stays behind', async () => {
    const { preview } = sure(await here.receive(full))
    const car = filed.workshop.car(filed.carId)
    expect(preview).toMatchObject({
      name: car.name,
      shellNumber: 'S-101',
      from: 'Brookside Metalwork',
      photos: car.attachments.size,
      lines: readFacts(filed.workshop.db, filed.carId).length,
      withheld: [],
      withheldLines: 0,
      refusal: null,
    })
    expect(preview.leftOut.map(({ why }) => why)).toContain('Bookings are of the other workshop’s bays')
    expect(lastNumber(here.workshop.db)).toBe(lastNumber(createdAlike()))
  })

  test('keeps the names of those who worked on it without making them people of this workshop', async () => {
    const { workshop } = here
    const contact = { name: 'Nadia Frost', phone: '', email: '' as const, address: '' }
    const { roles, skills, week, absences } = readWorkshop(workshop.db).people.get(welder)!
    const person = { personId: welder, roles: [...roles], skills: [...skills], absences: [...absences] }
    workshop.run('changePerson', { ...person, week: week as null, active: true, contact })
    workshop.run('changeContact', { id: owner, contact: { ...contact, name: 'P. Lorne' } })
    const carId = await here.take(full)
    const { nameOf } = contactBook(workshop.db)
    const car = workshop.car(carId)
    const [worker] = [...car.entries.values()].map(({ personId }) => personId)
    expect(nameOf(worker!)).toBe('Ilse Brandt')
    expect(nameOf(welder)).toBe('Nadia Frost')
    const [visit] = car.visits.values()
    expect(nameOf(visit!.ownerId)).toBe('R. Okafor')
    expect(nameOf(owner)).toBe('P. Lorne')
    const { people, parties } = readWorkshop(workshop.db)
    expect([people.size, people.has(worker!)]).toEqual([3, false])
    expect(parties.get(visit!.ownerId)?.kind).toBe('owner')
    expect(await faults(here)).toEqual([])
    const third = await createReceiver()
    onTestFinished(() => third.close())
    await third.take(await archiveOf(workshop, carId, EVERYTHING, folder))
    expect(contactBook(third.workshop.db).nameOf(worker!)).toBe('Ilse Brandt')
  })
})

describe('is refused, and nothing is changed:', () => {
  test('the same file a second time, and another file of the same car; a repeated word gets its first answer', async () => {
    const came = sure(await here.receive(full))
    const first = sure(await here.bringIn(came.fileId))
    const after = lastNumber(here.workshop.db)
    expect(sure(await here.bringIn(came.fileId))).toEqual(first)
    const again = await here.bringIn(came.fileId, { commandId: 'bring-in-2' })
    expect(refusalOf(again).message).toBe(
      'This car came in with its file from Brookside Metalwork on Thu 26 Nov 2026: Larkspur Four, shell S-101.',
    )
    const other = sure(await here.receive(plain))
    expect(other.preview.refusal?.message).toContain('This car came in with its file')
    expect(other.preview.needsNumber).toBe(false)
    expect(refusalOf(await here.bringIn(other.fileId, { commandId: 'bring-in-3' })).code).toBe('already')
    expect(lastNumber(here.workshop.db)).toBe(after)
    expect(readAllCars(here.workshop.db)).toHaveLength(1)
  })

  test('a car that this workshop keeps itself', async () => {
    here.workshop.addCar()
    const { preview } = sure(await here.receive(full))
    expect(preview.refusal?.message).toBe('This car is kept in this workshop: Larkspur 4, shell S-101.')
  })

  test('a shell number that is taken, until it gets another', async () => {
    const carId = here.workshop.addCar('Teasel', 'S-555')
    const teasel = { shellNumber: 'S-101', name: 'Teasel', body: 'tourer' as const, year: 1961 }
    here.workshop.run('changeCar', teasel, { carId })
    const came = sure(await here.receive(full))
    expect(came.preview).toMatchObject({
      needsNumber: true,
      refusal: { message: 'Shell number S-101 is taken here by Teasel.' },
    })
    expect(refusalOf(await here.bringIn(came.fileId)).message).toContain('S-101 is taken')
    const brought = sure(await here.bringIn(came.fileId, { shellNumber: 'S-101-B' }))
    expect(here.workshop.car(brought.carId).shellNumber).toBe('S-101-B')
    expect(await faults(here)).toEqual([])
  })

  test.each([
    ['one byte changed', () => damaged(full, folder), /changed|damaged|not what|cannot be read/i],
    [
      'a payload changed',
      () => forged(full, folder, 'journal.jsonl', (text) => text.replace('"Boot floor"', '"Boot flour"')),
      /^Line \d+ of the journal: its payload is not what was recorded\./,
    ],
    [
      'a line left out',
      () => forged(full, folder, 'journal.jsonl', (text) => withoutLine(text, 7)),
      /^Line 8 of the journal: its place in its chain does not follow\./,
    ],
    [
      'the end cut off',
      () => forged(full, folder, 'journal.jsonl', (text) => withoutLine(text, text.split('\n').length - 2)),
      /do not belong together/,
    ],
    [
      'a newer file',
      () => forged(full, folder, 'workshop.json', (text) => text.replace('"version": 1', '"version": 2')),
      /made by a newer Panelwright/,
    ],
    [
      'newer facts',
      () =>
        forged(full, folder, 'workshop.json', (text) =>
          text.replace(/"factVersion": \d+/, '"factVersion": 99'),
        ),
      /made by a newer Panelwright/,
    ],
    [
      'the bag of something else',
      () =>
        forged(full, folder, 'workshop.json', (text) => text.replace('panelwright car file', 'tax papers')),
      /not the file of a car/,
    ],
  ])('%s', async (_what, archive, words) => {
    const before = lastNumber(here.workshop.db)
    expect(refusalOf(await here.receive(await archive())).message).toMatch(words)
    expect(lastNumber(here.workshop.db)).toBe(before)
    expect(readdirSync(cameFilesFolder(here.workshop.dataDir ?? ''))).toEqual([])
    expect(await here.photos.list()).toMatchObject({ value: [] })
  })

  test('a transaction that fails; the photos that it leaves do no harm, and it works the second time', async () => {
    const { fileId } = sure(await here.receive(full))
    const before = lastNumber(here.workshop.db)
    const { sqlite } = here.workshop.db.writer
    sqlite.exec(
      `CREATE TRIGGER failing BEFORE INSERT ON journal WHEN NEW.kind = 'carBroughtIn'
       BEGIN SELECT RAISE(ABORT, 'the test stops it'); END`,
    )
    await expect(here.bringIn(fileId)).rejects.toThrow('the test stops it')
    sqlite.exec('DROP TRIGGER failing')
    expect([lastNumber(here.workshop.db), readAllCars(here.workshop.db)]).toEqual([before, []])
    const findings = await checkDatabase(here.workshop.db, here.photos)
    expect(findings.map(({ severity }) => severity)).not.toContain('fault')
    expect(findings.map(({ what }) => what).join('\n')).toMatch(/belongs to no car/)
    await here.bringIn(fileId)
    expect(await checkDatabase(here.workshop.db, here.photos)).toEqual([])
  })
})
