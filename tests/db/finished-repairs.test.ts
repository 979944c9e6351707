import { afterEach, describe, expect, test } from 'vitest'
import { checkDerived } from '../../db/check-derived.ts'
import type { Database } from '../../db/database.ts'
import { readDerived } from '../../db/derived.ts'
import { executeCommands } from '../../db/execute-command.ts'
import { currentFinished, readFinishedRepairs } from '../../db/finished-repairs.ts'
import { addFinished, type FinishedRow } from '../../db/finished-rows.ts'
import { inTransaction } from '../../db/handle.ts'
import { readFacts } from '../../db/journal.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { GATES } from '../../domain/gates.ts'
import { carIdSchema, entryIdSchema, repairIdSchema, visitIdSchema, type CarId } from '../../domain/ids.ts'
import { repairPlan } from '../support/plans.ts'
import { carPayload, createWorkshop, desk, manager, welder, type Workshop } from '../support/workshop.ts'

let opened: Workshop | null = null

afterEach(() => {
  opened?.close()
  opened = null
})

function workshopWithRepairs(...names: readonly string[]): { workshop: Workshop; carId: CarId } {
  const workshop = createWorkshop({ keptIn: 'folder' })
  opened = workshop
  const carId = workshop.addCar()
  for (const name of names) workshop.addRepair(carId, repairId(name), repairPlan(name))
  return { workshop, carId }
}

const repairId = (name: string) => repairIdSchema.parse(`repair-${name.toLowerCase()}`)

function work(workshop: Workshop, carId: CarId, name: string, hours: number): void {
  workshop.pass({ minutes: 1 })
  const targets = [{ kind: 'gate' as const, repairId: repairId(name), gate: 'fabricated' as const }]
  workshop.run(
    'logTime',
    {
      entryId: entryIdSchema.parse(`entry-${workshop.now}`),
      personId: welder,
      on: { kind: 'work', targets },
      hotWork: false,
      cause: null,
      time: { kind: 'day', date: '2026-11-20', hours },
      shares: null,
      note: '',
    },
    { carId },
  )
}

function finish(workshop: Workshop, carId: CarId, name: string): void {
  const gates = workshop.car(carId).repairs.get(repairId(name))?.gates
  for (const gate of GATES.filter((each) => gates?.[each].status === 'open'))
    workshop.run('markNotNeeded', { repairId: repairId(name), gate, reason: 'Sound.' }, { carId })
}

function finished(workshop: Workshop, carId: CarId, name: string, hours: number): void {
  work(workshop, carId, name, hours)
  finish(workshop, carId, name)
}

const told = (db: Database) => readFinishedRepairs(db).map((row) => [row.repairId, row.actual] as const)

describe('the history of finished repairs', () => {
  test('holds a repair once its last gate is done, with its hours, in the order of finishing', () => {
    const { workshop, carId } = workshopWithRepairs('Sill', 'Arch', 'Floor')
    work(workshop, carId, 'Sill', 3)
    expect(told(workshop.db)).toEqual([])
    finished(workshop, carId, 'Arch', 4)
    finish(workshop, carId, 'Sill')
    expect(told(workshop.db)).toEqual([
      ['repair-arch', 4],
      ['repair-sill', 3],
    ])
  })

  test('takes in hours that come later, and lets go of a repair that is reopened', () => {
    const { workshop, carId } = workshopWithRepairs('Sill', 'Arch')
    finished(workshop, carId, 'Sill', 3)
    finished(workshop, carId, 'Arch', 4)
    work(workshop, carId, 'Sill', 2)
    expect(told(workshop.db)).toEqual([
      ['repair-sill', 5],
      ['repair-arch', 4],
    ])
    const reopened = { repairId: repairId('Sill'), gate: 'welded', cause: 'fit', reason: 'Cracked.' } as const
    workshop.run('reopenGate', reopened, { carId })
    expect(told(workshop.db)).toEqual([['repair-arch', 4]])
    expect(checkDerived(workshop.db.reader)).toEqual([])
  })

  test('lets go of a repair whose last gate is voided', () => {
    const { workshop, carId } = workshopWithRepairs('Sill')
    finished(workshop, carId, 'Sill', 3)
    const last = readFacts(workshop.db, carId).findLast(({ kind }) => kind === 'gateNotNeeded')
    workshop.run('voidFact', { number: last!.number, reason: 'The wrong repair.' }, { carId })
    expect(told(workshop.db)).toEqual([])
    expect(checkDerived(workshop.db.reader)).toEqual([])
  })

  test('counts a clock that still runs on a finished repair once it is stopped', () => {
    const { workshop, carId } = workshopWithRepairs('Sill')
    finished(workshop, carId, 'Sill', 3)
    const entryId = entryIdSchema.parse('entry-clock')
    const targets = [{ kind: 'gate' as const, repairId: repairId('Sill'), gate: 'welded' as const }]
    workshop.run(
      'startClock',
      { entryId, personId: welder, on: { kind: 'work', targets }, hotWork: false, cause: null },
      { carId },
    )
    workshop.pass({ hours: 1 })
    workshop.run('addNote', { text: 'Still at it.' }, { carId })
    expect(told(workshop.db)).toEqual([['repair-sill', 3]])
    expect(checkDerived(workshop.db.reader)).toEqual([])
    workshop.run('stopClock', { entryId, overtime: false, shares: null }, { carId })
    expect(told(workshop.db)).toEqual([['repair-sill', 4]])
  })

  test('keeps a repair as it was, whatever a warranty visit does to it', () => {
    const { workshop, carId } = workshopWithRepairs('Sill', 'Arch')
    finished(workshop, carId, 'Sill', 3)
    finished(workshop, carId, 'Arch', 4)
    const visitId = visitIdSchema.parse('visit-s-101')
    workshop.run('setVisitStatus', { visitId, status: 'finished', reason: '' }, { carId })
    workshop.run('setVisitStatus', { visitId, status: 'delivered', reason: '' }, { carId })
    workshop.pass({ hours: 100 })
    const { visit } = carPayload('Larkspur 4', 'S-101')
    const again = { ...visit, visitId: visitIdSchema.parse('visit-again'), kind: 'warranty' } as const
    workshop.run('openVisit', again, { carId })
    const taken = {
      repairId: repairId('Sill'),
      gate: 'fabricated',
      cause: 'fit',
      reason: 'Cracked.',
    } as const
    workshop.run('reopenGate', taken, { carId })
    work(workshop, carId, 'Sill', 9)
    expect(checkDerived(workshop.db.reader)).toEqual([])
    finish(workshop, carId, 'Sill')
    expect(checkDerived(workshop.db.reader)).toEqual([])
    expect(new Map(told(workshop.db))).toEqual(
      new Map([
        ['repair-sill', 3],
        ['repair-arch', 4],
      ]),
    )
  })

  test('holds repairs of two cars that were given the same id', () => {
    const { workshop, carId } = workshopWithRepairs('Sill')
    const other = workshop.addCar('Teasel', 'S-102')
    workshop.addRepair(other, repairId('Sill'), repairPlan('Sill'))
    finished(workshop, carId, 'Sill', 3)
    finished(workshop, other, 'Sill', 4)
    expect(told(workshop.db)).toEqual([
      ['repair-sill', 3],
      ['repair-sill', 4],
    ])
  })

  test('says the same when it is made anew, and a row that was changed by hand is found', () => {
    const { workshop, carId } = workshopWithRepairs('Sill', 'Arch')
    finished(workshop, carId, 'Sill', 3)
    finished(workshop, carId, 'Arch', 4)
    const before = readDerived(workshop.db.reader).repairs
    expect(before).toHaveLength(2)
    rebuildDerived(workshop.db)
    expect(readDerived(workshop.db.reader).repairs).toEqual(before)
    expect(told(workshop.db)).toHaveLength(2)
    workshop.db.writer.sqlite.exec('UPDATE finished_repair SET actual = actual + 1 WHERE actual = 4')
    expect(checkDerived(workshop.db.reader).map(({ what }) => what)).toEqual([
      'The table of repairs does not say of car-s-101 repair-arch what the journal says.',
    ])
  })

  test('forgets what a transaction read that came to nothing', () => {
    const { workshop, carId } = workshopWithRepairs('Sill', 'Arch')
    finished(workshop, carId, 'Sill', 3)
    work(workshop, carId, 'Arch', 4)
    const { db } = workshop
    const visitId = visitIdSchema.parse('visit-s-101')
    const requests = [
      ...GATES.map((gate) =>
        workshop.command('markNotNeeded', { repairId: repairId('Arch'), gate, reason: 'Sound.' }, { carId }),
      ),
      // Reads the history inside the transaction, and is refused.
      workshop.command(
        'acceptEstimate',
        { visitId, payer: 'owner', lineIds: [], costIds: [], how: 'call', note: '' },
        { carId },
      ),
    ].map((command) => ({ command, device: desk, second: null, now: workshop.now }))
    expect(executeCommands(db, requests).ok).toBe(false)
    expect(told(db)).toEqual([['repair-sill', 3]])
    work(workshop, carId, 'Sill', 1)
    expect(told(db)).toEqual([['repair-sill', 4]])
  })
})

describe('reading the history', () => {
  test('gives the same array until something has changed, and reads new rows alone', () => {
    const { workshop } = workshopWithRepairs('Sill')
    const { db } = workshop
    addRows(db, 1, 200)
    const first = readFinishedRepairs(db)
    expect(first).toHaveLength(200)
    expect(readFinishedRepairs(db)).toBe(first)
    addRows(db, 201, 250)
    const second = readFinishedRepairs(db)
    expect(second).toHaveLength(250)
    // The rows that were known are the very same objects: they were not read again.
    expect(second[0]).toBe(first[0])
    expect(second[199]).toBe(first[199])
    expect(currentFinished(db.writer, db.cache)).toBe(second)
  })

  test('stands in finish order whatever order the rows were written in', () => {
    const { workshop } = workshopWithRepairs('Sill')
    addRows(workshop.db, 11, 20)
    readFinishedRepairs(workshop.db)
    addRows(workshop.db, 1, 10)
    const numbers = readFinishedRepairs(workshop.db).map(({ finished: { number } }) => number)
    expect(numbers).toEqual(Array.from({ length: 20 }, (_, at) => at + 1))
  })
})

/** Rows as ten years of records would leave them. */
function addRows({ writer }: Database, from: number, to: number): void {
  inTransaction(writer, () =>
    addFinished(
      writer,
      Array.from({ length: to - from + 1 }, (_, at) => rowNumber(from + at)),
    ),
  )
}

function rowNumber(number: number): FinishedRow {
  const carId = carIdSchema.parse(`car-old-${number % 40}`)
  const gate = { before: 2, assessed: 2.5, actual: 3.25, rework: 0 }
  return {
    id: `${carId} repair-${number}`,
    carId,
    repairId: repairIdSchema.parse(`repair-${number}`),
    visitId: visitIdSchema.parse('visit-old'),
    typeId: null,
    estimator: manager,
    number,
    finishedAt: number,
    before: 16,
    assessed: 20,
    actual: 26,
    gates: Object.fromEntries(GATES.map((each) => [each, gate])) as FinishedRow['gates'],
    taken: number % 2 === 0,
    outside: 'surface',
    hidden: [{ name: 'inner panel', grade: 'holed' }],
    worstHidden: 'holed',
    stated: { accepted: null, assessed: null },
  }
}
