import Sqlite from 'better-sqlite3'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { keepBeforeMigration } from '../../db/before-migration.ts'
import { contactBook, rewriteContacts, writeContacts } from '../../db/contacts.ts'
import { databasePath } from '../../db/data-paths.ts'
import { eraseAgain, eraseBeforeMigration, readCarsOfParty, readErasures } from '../../db/erasures.ts'
import { emptyLog, inTransaction, openReader } from '../../db/handle.ts'
import type { Contact } from '../../domain/commands/decide.ts'
import type { VisitState } from '../../domain/car.ts'
import { awayIdSchema, partyIdSchema, visitIdSchema, type CarId } from '../../domain/ids.ts'
import { openInMemory } from '../../db/open-database.ts'
import { readRestingCars } from '../../db/reads.ts'
import { createRandom } from '../support/random.ts'
import { treeOf } from '../support/copies.ts'
import {
  carPayload,
  createWorkshop,
  dippingFirm,
  fullWeek,
  insurer,
  owner,
  painter,
  type Workshop,
} from '../support/workshop.ts'

const contact: Contact = {
  name: 'Philippa Drawbaugh',
  phone: '+44 20 7946 0777',
  email: 'pd@example.org',
  address: '9 Tenter Lane',
}
const TRACES = ['Drawbaugh', '7946 0777', 'pd@example.org', 'Tenter Lane', 'Threadneedle']

let workshop: Workshop
beforeEach(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
})
afterEach(() => workshop.close())

/** Files of the data folder in which something of the contact stands, with what. */
const tracesLeft = (): readonly string[] =>
  [...treeOf(workshop.dataDir!)].flatMap(([path, bytes]) =>
    TRACES.filter((trace) => bytes.includes(trace)).map((trace) => `${path}: ${trace}`),
  )
const setStatus = (carId: CarId, visitId: string, ...statuses: readonly VisitState['status'][]) => {
  for (const status of statuses)
    workshop.run('setVisitStatus', { visitId: visitIdSchema.parse(visitId), status, reason: '' }, { carId })
}

describe('a contact that was erased', () => {
  test('is in no byte of the data folder, among hundreds of others and after several changes of it', () => {
    const { between } = createRandom(11)
    const add = (name: string, one: Contact) => {
      const partyId = partyIdSchema.parse(`party-${between(0, 1e9)}-${name}`)
      workshop.run('addParty', { partyId, kind: 'owner', contact: one })
      return partyId
    }
    const addOthers = (count: number) =>
      Array.from({ length: count }, (_, at) =>
        add(String(at), { name: `Other ${at}`, phone: '', email: '', address: 'x'.repeat(between(0, 400)) }),
      )
    const before = addOthers(30)
    const id = add('erased', { ...contact, address: '12 Threadneedle Yard' })
    const others = [...before, ...addOthers(170)]
    workshop.run('changeContact', { id, contact })
    for (const other of others.filter((_, at) => at % 3 === 0))
      workshop.run('changeContact', {
        id: other,
        contact: { name: 'Other', phone: '', email: '', address: 'y'.repeat(between(0, 450)) },
      })
    expect(tracesLeft()).not.toEqual([])
    workshop.run('eraseContact', { id })
    expect(tracesLeft()).toEqual([])
    const book = contactBook(workshop.db)
    expect(book.nameOf(id)).toBe('(name erased)')
    expect(others.map((other) => book.nameOf(other)).every((name) => name.startsWith('Other'))).toBe(true)
    expect(readErasures(workshop.db)).toEqual([{ id, at: workshop.now }])
  })

  test('leaves nothing where pages of the book were split around its row', () => {
    // Found among 1,500 random books: there the row stands a second time, in a page that was split.
    const { between } = createRandom(977)
    const { writer, close } = openInMemory()
    const write = (id: string, name: string) =>
      writeContacts(writer, [{ id, contact: { name, phone: '', email: '', address: '' } }])
    const ids = Array.from({ length: 60 }, () => `p${between(0, 1e9)}`)
    inTransaction(writer, () => {
      for (const id of ids) write(id, 'x'.repeat(between(0, 500)))
      write('p5', contact.name)
      for (let at = 0; at < 300; at++) write(ids[between(0, 59)]!, 'y'.repeat(between(0, 600)))
      write('p5', 'erased')
    })
    expect(writer.sqlite.serialize().includes('Drawbaugh')).toBe(true)
    inTransaction(writer, () => rewriteContacts(writer))
    expect(writer.sqlite.serialize().includes('Drawbaugh')).toBe(false)
    close()
  })

  test('stays in the log only as long as somebody reads an older state', () => {
    workshop.run('changeContact', { id: owner, contact })
    const beside = openReader(databasePath(workshop.dataDir!))
    beside.sqlite.exec('BEGIN')
    beside.sqlite.prepare('SELECT count(*) FROM contact').get()
    workshop.run('eraseContact', { id: owner })
    expect(tracesLeft()).not.toEqual([])
    expect(emptyLog(workshop.db.writer)).toBe(false)
    beside.sqlite.close()
    expect(emptyLog(workshop.db.writer)).toBe(true)
    expect(tracesLeft()).toEqual([])
  })

  test('is recorded and told as such where the disk fails as the log is emptied, which is tried again', () => {
    workshop.run('changeContact', { id: owner, contact })
    const { pragma } = Sqlite.prototype
    const failing = vi.spyOn(workshop.db.writer.sqlite, 'pragma').mockImplementation(((text: string) => {
      if (text.startsWith('wal_checkpoint'))
        throw new Sqlite.SqliteError('disk I/O error', 'SQLITE_IOERR_WRITE')
      return pragma.call(workshop.db.writer.sqlite, text)
    }) as typeof pragma)
    workshop.run('eraseContact', { id: owner })
    expect(failing).toHaveBeenCalledWith('wal_checkpoint(TRUNCATE)')
    failing.mockRestore()
    expect(contactBook(workshop.db).nameOf(owner)).toBe('(name erased)')
    expect(emptyLog(workshop.db.writer)).toBe(true)
    expect(tracesLeft()).toEqual([])
  })

  test('goes from the databases that were kept before a migration, too, which stay sound', () => {
    workshop.run('changeContact', { id: owner, contact })
    const path = keepBeforeMigration(workshop.db.writer, workshop.dataDir!, 9, workshop.now)
    workshop.run('eraseContact', { id: owner })
    expect(tracesLeft()).not.toEqual([])
    eraseBeforeMigration(workshop.dataDir!, readErasures(workshop.db))
    expect(tracesLeft()).toEqual([])
    const kept = openReader(path)
    expect(kept.sqlite.pragma('integrity_check', { simple: true })).toBe('ok')
    expect(kept.sqlite.prepare('SELECT count(*) FROM contact').pluck().get()).toBe(6)
    kept.sqlite.close()
  })

  test('cannot be given a name again, and stands for nobody in anything new', () => {
    workshop.run('eraseContact', { id: owner })
    expect(workshop.refused('changeContact', { id: owner, contact }).message).toContain('erased for good')
    expect(workshop.refused('eraseContact', { id: owner }).message).toContain('erased already')
    expect(workshop.refusalCode('addCar', carPayload('Larkspur 4', 'S-101'))).toBe('unknown')
    workshop.run('eraseContact', { id: dippingFirm })
    const person = {
      personId: painter,
      roles: ['technician' as const],
      skills: [],
      week: fullWeek,
      absences: [],
    }
    const left = { ...person, active: false, contact: { ...contact, name: 'Tomasz Hale' } }
    workshop.run('changePerson', left)
    workshop.run('eraseContact', { id: painter })
    expect(workshop.refused('changePerson', { ...left, active: true }).message).toContain('erased for good')
  })

  test('is erased once more where a database comes from before, whatever is in hand for them, and only once', () => {
    workshop.run('changeContact', { id: owner, contact })
    workshop.addCar()
    const erasures = [
      { id: owner, at: workshop.now - 1_000 },
      { id: 'party-added-later', at: workshop.now },
    ]
    expect(eraseAgain(workshop.db, erasures, workshop.now)).toBe(1)
    expect(eraseAgain(workshop.db, erasures, workshop.now)).toBe(0)
    expect(readErasures(workshop.db)).toEqual([erasures[0]])
    expect(emptyLog(workshop.db.writer)).toBe(true)
    expect(tracesLeft()).toEqual([])
  })
})

test('the cars of an insurer or an earlier owner are found, also when they rest', () => {
  const { db } = workshop
  const carId = workshop.addCar('Teasel', 'S-102')
  const larkspur = workshop.addCar('Larkspur 4', 'S-101')
  const names = (id: string) => readCarsOfParty(db, id).map(({ name }) => name)
  const later = partyIdSchema.parse('party-later')
  workshop.run('addParty', { partyId: later, kind: 'owner', contact })
  setStatus(carId, 'visit-s-102', 'finished', 'delivered')
  const { visit } = carPayload('Teasel', 'S-102')
  const visitId = visitIdSchema.parse('visit-second')
  const second = { ...visit, visitId, ownerId: later, insurerId: null, status: 'agreed' as const }
  workshop.run('openVisit', second, { carId })
  setStatus(carId, 'visit-second', 'in work', 'finished', 'delivered')
  expect(readRestingCars(db)).toHaveLength(1)
  expect(names(owner)).toEqual(['Larkspur 4', 'Teasel'])
  expect(names(insurer)).toEqual(['Larkspur 4', 'Teasel'])
  expect(names(later)).toEqual(['Teasel'])
  const namedLater = partyIdSchema.parse('party-named-later')
  workshop.run('addParty', { partyId: namedLater, kind: 'insurer', contact })
  const { visitId: first, promised, priority, charge } = carPayload('Larkspur 4', 'S-101').visit
  const change = { visitId: first, promised, priority, charge, insurerId: namedLater }
  workshop.run('changeVisit', change, { carId: larkspur })
  expect(names(namedLater)).toEqual(['Larkspur 4'])
  expect(names(dippingFirm)).toEqual([])
})

describe('a contact is not erased', () => {
  const refused = (id: typeof owner | typeof painter) => workshop.refused('eraseContact', { id })

  test('while a visit goes on that is agreed with them, and is once the car was delivered', () => {
    const carId = workshop.addCar()
    expect(refused(owner)).toEqual({
      code: 'not-now',
      message: 'The name is needed until the work on Larkspur 4 (S-101) is done.',
      next: 'Deliver the car or bring its shell back first; a visit that is only agreed can be set back to enquired.',
    })
    setStatus(carId, 'visit-s-101', 'finished', 'delivered')
    workshop.run('eraseContact', { id: owner })
  })

  test('while the firm has a shell', () => {
    const carId = workshop.addCar()
    const away = {
      awayId: awayIdSchema.parse('away-1'),
      firmId: dippingFirm,
      what: 'dipping',
      from: '2026-11-23',
      expected: '2026-12-01',
    }
    workshop.run('sendAway', away, { carId })
    expect(refused(dippingFirm).message).toContain('Larkspur 4 (S-101)')
  })

  test('while the person works here, and not by a technician', () => {
    expect(refused(painter).next).toContain('Works here')
    expect(workshop.refused('eraseContact', { id: owner }, { by: painter }).code).toBe('not-allowed')
  })

  test('but is where all that there is of them is an enquiry', () => {
    const payload = carPayload('Larkspur 4', 'S-101')
    workshop.run('addCar', { ...payload, visit: { ...payload.visit, status: 'enquired' } })
    workshop.run('eraseContact', { id: owner })
    expect(contactBook(workshop.db).nameOf(owner)).toBe('(name erased)')
  })
})
