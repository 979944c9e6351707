import { mkdirSync } from 'node:fs'
import { appendFacts } from '../../db/append-facts.ts'
import { writeContacts } from '../../db/contacts.ts'
import type { Database } from '../../db/database.ts'
import { headOf } from '../../db/chains.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { inTransaction } from '../../db/handle.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { originalsFolder } from '../../db/photos/photo-files.ts'
import { placeholders } from '../../db/placeholders.ts'
import { photo } from '../../db/schema.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import { commandIdSchema, personIdSchema, reportIdSchema, type PersonId } from '../../domain/ids.ts'
import { dateToIsoWeek, formatIsoWeek } from '../../domain/time/iso-week.ts'
import { addDays, daysBetween, weekdayNumber } from '../../domain/time/local-date.ts'
import { usualSettings } from '../../domain/usual-workshop.ts'
import { repairPlan } from '../support/plans.ts'
import { createRandom, type Random } from '../support/random.ts'
import { createWorkshop, desk, manager, painter, welder, type Workshop } from '../support/workshop.ts'
import {
  BAYS,
  bayOf,
  comeIn,
  digestOf,
  momentOn,
  ownerOf,
  tenYearsCar,
  type TenYearsCar,
  TYPES,
  typeOf,
  workOn,
} from './ten-years-car.ts'
import { keepDayEnd, takeWeekPlan } from './ten-years-plans.ts'

/** Its last morning; the host's clock goes on from there. */
export const LAST_MORNING = '2026-11-23'
/** Ten years have 500 cars: one comes in every 7.3 days. */
const CARS_A_YEAR = 50
const DAYS_BETWEEN = 365 / CARS_A_YEAR
/** From coming in to delivery, so that twenty cars are in work at a time. */
const DAYS_HERE = 20 * DAYS_BETWEEN

export interface Filled {
  readonly cars: readonly TenYearsCar[]
  readonly inWork: readonly TenYearsCar[]
  readonly people: readonly PersonId[]
}

interface Filling {
  readonly db: Database
  readonly random: Random
  readonly people: readonly PersonId[]
  readonly cars: readonly TenYearsCar[]
  readonly starts: readonly string[]
}

/**
 * Fills an empty folder with years of a workshop's life: 50 cars a year, of 20 repairs, some 400 time entries and 300 photos
 * each, all but the last twenty delivered. Facts are appended day by day as they would be recorded, a week in a transaction;
 * the derived tables are made from them. The same seed gives the same facts; salts and so hashes differ. Photos and
 * reports have their rows and no files. Cost: about 100 µs for each of the 45,000 facts of a year, and as much for the tables.
 */
export function fillYears(dataDir: string, years: number, seed: number): void {
  const workshop = createWorkshop({
    dataDir,
    now: momentOn(addDays(LAST_MORNING, -Math.ceil(years * 365 + DAYS_HERE)), 8),
  })
  const of = startFilling(workshop, years, seed)
  addPeopleTypesAndBays(of)
  for (
    let monday = mondayOf(of.starts[0] ?? LAST_MORNING);
    monday < LAST_MORNING;
    monday = addDays(monday, 7)
  )
    inTransaction(of.db.writer, () => tellWeek(of, monday))
  addPhotoRows(of)
  rebuildDerived(of.db)
  of.db.writer.sqlite.exec('PRAGMA optimize; PRAGMA wal_checkpoint(TRUNCATE)')
  of.db.close()
  // The host starts on no folder that has photos and no place for them.
  mkdirSync(originalsFolder(photosFolder(dataDir)), { recursive: true })
}

/** The cars as {@link fillYears} made them. */
export function yearsFilled(years: number): Filled {
  const cars = Array.from({ length: years * CARS_A_YEAR }, (_, index) => tenYearsCar(index))
  return { cars, inWork: cars.slice(-20), people: team() }
}

function startFilling({ db }: Workshop, years: number, seed: number): Filling {
  const { cars, people } = yearsFilled(years)
  const starts = cars.map((_, index) =>
    addDays(LAST_MORNING, -Math.round((cars.length - index - 0.5) * DAYS_BETWEEN)),
  )
  return { db, random: createRandom(seed), people, cars, starts }
}

const team = (): readonly PersonId[] => [
  welder,
  painter,
  ...Array.from({ length: 10 }, (_, index) => personIdSchema.parse(`person-${index}`)),
]

const mondayOf = (date: string): string => addDays(date, 1 - weekdayNumber(date))

function addPeopleTypesAndBays(of: Filling): void {
  const date = addDays(of.starts[0] ?? LAST_MORNING, -7)
  append(of, null, date, [
    ...of.people.slice(2).map((personId) =>
      fact('personAdded', {
        personId,
        roles: ['technician'],
        skills: ['metalwork'],
        week: null,
        absences: [],
      }),
    ),
    ...Array.from({ length: TYPES }, (_, index) =>
      fact('typeSaved', { typeId: typeOf(index), version: 1, plan: repairPlan(`Kind ${index}`) }),
    ),
    ...Array.from({ length: BAYS }, (_, index) =>
      fact('bayAdded', {
        bayId: bayOf(index),
        name: `Bay ${index + 1}`,
        kinds: ['metalwork'],
        floor: { x: 100 * index, y: 100, width: 60, height: 80 },
      }),
    ),
    fact('settingsSet', { ...usualSettings, figuresByPerson: true }),
    fact('ratesSet', { from: date, usual: 6_400, bySkill: [] }),
  ])
}

function tellWeek(of: Filling, monday: string): void {
  for (let weekday = 0; weekday < 5; weekday += 1) {
    const date = addDays(monday, weekday)
    if (date >= LAST_MORNING) return
    for (const car of carsOn(of, date)) append(of, car, date, dayOf(of, car, date))
    if (weekday === 0)
      takeWeekPlan(of.db, here(of, date), of.people, date, (facts) => append(of, null, date, facts))
    keepDayEnd(of.db, here(of, date), date)
    if (weekday === 4) for (const car of here(of, date)) issueReport(of, car, date)
  }
}

/** Cars that come in, are worked on or leave on that day; what falls on a weekend is done on the Monday after it. */
function carsOn({ cars, starts }: Filling, date: string): readonly TenYearsCar[] {
  return cars.filter((_, index) => {
    const days = daysBetween(starts[index] ?? date, date)
    return days >= 0 && days < DAYS_HERE + 4
  })
}

const here = (of: Filling, date: string): readonly TenYearsCar[] =>
  carsOn(of, date).filter((car) => daysBetween(of.starts[car.index] ?? date, date) < DAYS_HERE)

function dayOf(of: Filling, car: TenYearsCar, date: string): readonly NewFact[] {
  const share = (daysBetween(of.starts[car.index] ?? date, date) + 1) / DAYS_HERE
  const day = { people: of.people, random: of.random, date }
  const isFirst = car.entries === 0 && car.passed === 0
  if (isFirst) addOwner(of, car, date)
  if (isFirst) return [...comeIn(car, day), ...workOn(car, day, Math.min(share, 1))]
  if (car.passed === car.targets.length) return []
  const facts = workOn(car, day, Math.min(share, 1))
  if (car.passed < car.targets.length) return facts
  const { visitId } = car
  const statusSet = (status: 'finished' | 'delivered') =>
    fact('visitStatusSet', { visitId, status, reason: '' })
  return [...facts, statusSet('finished'), statusSet('delivered')]
}

function addOwner(of: Filling, { index }: TenYearsCar, date: string): void {
  const partyId = ownerOf(index)
  append(of, null, date, [fact('partyAdded', { partyId, kind: 'owner' })])
  const contact = { name: `Owner ${index}`, phone: '', email: '', address: '' } as const
  writeContacts(of.db.writer, [{ id: partyId, contact }])
}

/** The report, and the head of the chain that it adds to. */
function issueReport(of: Filling, car: TenYearsCar, date: string): void {
  const week = formatIsoWeek(dateToIsoWeek(date))
  append(of, car, date, [
    fact('reportIssued', {
      reportId: reportIdSchema.parse(`report-${car.index}-${week.toLowerCase()}`),
      visitId: car.visitId,
      week,
      sha256: digestOf(car.index, 1_000_000 + daysBetween('2010-01-01', date)),
      page: null,
      head: headOf(of.db.writer, car.carId).hash,
      words: '',
      photos: car.shown,
      crops: [],
      names: false,
      dates: 'range',
      language: 'en',
      title: `Car ${car.index}, week ${week}`,
    }),
  ])
  append(of, null, date, [
    fact('headsLinked', { heads: { [car.carId]: headOf(of.db.writer, car.carId).hash } }),
  ])
}

let commands = 0

function append({ db }: Filling, car: TenYearsCar | null, date: string, facts: readonly NewFact[]): void {
  if (facts.length === 0) return
  commands += 1
  const now = momentOn(date, 15)
  const instant = new Date(now).toISOString()
  appendFacts(db.writer, facts, {
    by: manager,
    device: desk,
    happened: instant,
    made: instant,
    now,
    commandId: commandIdSchema.parse(`years-${commands}`),
    carId: car?.carId ?? null,
    visitId: facts.some(({ kind }) => kind === 'carAdded') ? null : (car?.visitId ?? null),
  })
}

function addPhotoRows({ db, cars }: Filling): void {
  const add = db.writer.orm.insert(photo).values(placeholders(photo)).prepare()
  const row = {
    bytes: 4_200_000,
    width: 6_000,
    height: 4_000,
    type: 'jpeg',
    received: '2026-01-01T12:00:00.000Z',
  }
  inTransaction(db.writer, () => {
    for (const { index, photos } of cars)
      for (let each = 0; each < photos; each += 1)
        add.run({ ...row, sha256: digestOf(index, each), cameraLocal: null, cameraOffset: null })
  })
}
