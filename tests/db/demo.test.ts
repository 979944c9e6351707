/* Over 300 lines because filling the demo takes long: whatever is asked of the filled one is asked here. */
import { rm } from 'node:fs/promises'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { checkDatabase } from '../../db/check.ts'
import { checkDerived } from '../../db/check-derived.ts'
import { checkJournal } from '../../db/check-journal.ts'
import { contactBook } from '../../db/contacts.ts'
import { photosFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { demoCars } from '../../db/demo/demo-cars.ts'
import { demoPeople } from '../../db/demo/demo-people.ts'
import { fillDemo } from '../../db/demo/fill-demo.ts'
import { rehearseDemo } from '../../db/demo/rehearse-demo.ts'
import { readFacts } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { photoRow } from '../../db/photo-rows.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { openPhotoStore, type PhotoStore } from '../../db/photos/photo-store.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { photo } from '../../db/schema.ts'
import { readSetting } from '../../db/settings.ts'
import type { CarState } from '../../domain/car.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { gateOrder } from '../../domain/gates.ts'
import { commandIdSchema, type CarId } from '../../domain/ids.ts'
import { visitMoney } from '../../domain/money/visit-money.ts'
import { activeRepairs, isDone, isFinished, standingFaults } from '../../domain/rules/standing.ts'
import { localToInstant } from '../../domain/time/zone.ts'
import { carView } from '../../domain/views/car-view.ts'
import { isStorage } from '../../domain/workshop.ts'
import { bringIn } from '../support/came-car.ts'
import { copyFilledDemo, filledDemo } from '../support/filled-demo.ts'
import { createWorkshop } from '../support/workshop.ts'

const ZONE = 'Europe/London'
const MINUTES = 60_000
const { today, seed } = filledDemo
const until = localToInstant(today, '10:40', ZONE)
const monday = localToInstant('2026-11-23', '00:00', ZONE)

const HOOK_MS = 240_000

let folder: string
let db: Database
let photoStore: PhotoStore
let cars: readonly CarState[]

beforeAll(async () => {
  folder = await copyFilledDemo()
  db = openDatabase(folder)
  const opened = await openPhotoStore(photosFolder(folder), { inspect: inspectPhoto })
  if (!opened.ok) throw new Error(opened.problem.message)
  photoStore = opened.value
  cars = readAllCars(db)
}, HOOK_MS)

afterAll(async () => {
  db.close()
  await rm(folder, { recursive: true })
})

const carNamed = (name: string): CarState => {
  const car = cars.find((each) => each.name === name)
  if (!car) throw new Error(`There is no ${name}.`)
  return car
}
const repairNamed = (carName: string, name: string) => {
  const repair = [...carNamed(carName).repairs.values()].find(({ plan }) => plan.name === name)
  if (!repair) throw new Error(`There is no ${name} on ${carName}.`)
  return repair
}
const statusOf = (car: CarState) => car.currentVisit && car.visits.get(car.currentVisit)?.status
const entries = () => cars.flatMap((car) => [...car.entries.values()])

describe('the demo workshop', () => {
  test('has nine cars, seven people with their codes, six bays and a yard', () => {
    const workshop = readWorkshop(db)
    expect(cars).toHaveLength(9)
    expect(new Set(cars.map(({ body }) => body)).size).toBeGreaterThanOrEqual(6)
    expect(workshop.people.size).toBe(7)
    expect(new Set(Object.values(demoPeople).map(({ code }) => code)).size).toBe(7)
    const bays = [...workshop.bays.values()]
    expect(bays.filter((bay) => !isStorage(bay))).toHaveLength(6)
    expect(bays.filter(isStorage)).toHaveLength(1)
    expect(contactBook(db).nameOf(demoPeople.wren.id)).toBe('Wren')
    expect(readSetting(db, 'demo')).not.toBeNull()
  })

  test('has about seventy repairs, of which some cover others and some fit together', () => {
    const repairs = cars.flatMap(activeRepairs)
    expect(repairs.length).toBeGreaterThanOrEqual(65)
    expect(repairs.length).toBeLessThanOrEqual(75)
    expect(cars.flatMap(({ covers }) => covers).length).toBeGreaterThanOrEqual(15)
    expect(cars.every(({ fitGroups }) => fitGroups.size > 0)).toBe(true)
  })

  test('covers eight months', () => {
    const first = Math.min(...readFacts(db, null).map(({ recorded }) => Date.parse(recorded)))
    const months = (until - first) / (30.4 * 24 * 60 * MINUTES)
    expect(months).toBeGreaterThan(7.5)
    expect(months).toBeLessThan(9)
  })

  test('has rates that changed once, and money that is authorised, spent and over', () => {
    expect(readWorkshop(db).rates).toHaveLength(2)
    const context = { at: until, workshop: readWorkshop(db) }
    const sums = cars.flatMap((car) =>
      [...car.visits.values()].map((visit) => visitMoney(car, visit, context)),
    )
    expect(sums.flatMap(({ withoutRate }) => withoutRate)).toEqual([])
    const withGoods = sums.filter(({ whole }) => whole.spent.goods > 0)
    expect(withGoods.length).toBeGreaterThanOrEqual(6)
    expect(withGoods.some(({ whole }) => whole.beyond.goods > 0)).toBe(true)
    expect(sums.some(({ whole }) => whole.waiting.goods > 0)).toBe(true)
  })

  test('is whole from the journal to the photos', async () => {
    expect(await checkDatabase(db, photoStore)).toEqual([])
  })

  test('holds nothing that lies after its last moment', () => {
    const facts = [null, ...cars.map(({ id }) => id)].flatMap((id) => readFacts(db, id))
    for (const { happened, recorded } of facts) {
      expect(Date.parse(happened)).toBeLessThanOrEqual(until)
      expect(Date.parse(recorded)).toBeLessThanOrEqual(until)
    }
  })

  test('has camera dates on its photos that say when they were taken', () => {
    for (const car of cars)
      for (const { sha256, taken, stamp } of car.attachments.values()) {
        const row = photoRow(db, sha256)
        expect(taken).not.toBeNull()
        expect(Date.parse(`${row?.cameraLocal}${row?.cameraOffset}`)).toBe(taken)
        expect(Math.abs(stamp.happened - (taken ?? 0))).toBeLessThan(MINUTES)
      }
  })

  test('has a thumbnail of every photo', async () => {
    const [attachment] = cars.flatMap((car) => [...car.attachments.values()])
    const thumb = await photoStore.readSize(attachment?.sha256 ?? '', 'thumb')
    expect(thumb.ok).toBe(true)
    if (thumb.ok) await thumb.value.stream.cancel()
  })
})

describe('the cars of the demo', () => {
  test('stand where their stories say, and only the battery tray that was dipped is behind', () => {
    const behind = demoCars.flatMap((demo) =>
      demo.repairs.flatMap(({ name, goal }) => {
        const repair = repairNamed(demo.name, name)
        const order = gateOrder(repair.plan)
        const aimed = goal === null ? [] : order.slice(0, order.indexOf(goal) + 1)
        return aimed.every((gate) => isDone(repair, gate)) ? [] : [`${demo.name}: ${name}`]
      }),
    )
    expect(behind).toEqual(['Tamsel Estate: Battery tray'])
  })

  test('were looked at from outside before they were opened: mostly no worse than what was found inside', () => {
    const opened = cars.flatMap((car) =>
      demoCars
        .filter(({ name }) => name === car.name)
        .flatMap(({ repairs }) => repairs.filter(({ added }) => added === undefined))
        .map(({ name }) => repairNamed(car.name, name))
        .filter((repair) => isDone(repair, 'opened')),
    )
    expect(opened.filter(({ outside }) => outside === null)).toEqual([])
    const pairs = opened.flatMap((repair) => {
      const hidden = repair.plan.layers.slice(0, -1).map(({ layerId }) => repair.layers.get(layerId)?.grade)
      const known = hidden.flatMap((grade) => (grade === null || grade === undefined ? [] : [grade]))
      const worst = Math.max(...known.map((grade) => GRADES.indexOf(grade as Grade)))
      return known.length === 0 ? [] : [worst >= GRADES.indexOf(repair.outside?.grade ?? 'gone')]
    })
    expect(pairs.length).toBeGreaterThan(30)
    expect(pairs.filter(Boolean).length / pairs.length).toBeGreaterThan(0.8)
    const untouched = cars.flatMap(activeRepairs).filter((repair) => !isDone(repair, 'opened'))
    expect(untouched.some(({ outside }) => outside === null)).toBe(true)
    expect(untouched.some(({ outside }) => outside !== null)).toBe(true)
  })

  test('have no standing fault', () => {
    expect(cars.flatMap((car) => standingFaults(car).map(({ words }) => words))).toEqual([])
  })

  test('have something to report this week, but for the two that are finished', () => {
    const quiet = cars.filter((car) =>
      readFacts(db, car.id).every(({ recorded }) => Date.parse(recorded) < monday),
    )
    expect(quiet.map(({ name }) => name).toSorted()).toEqual(['Brenholt Coupe', 'Lindquell Estate'])
  })

  test('are two finished ones, one of them delivered, with every repair done', () => {
    expect(statusOf(carNamed('Lindquell Estate'))).toBe('delivered')
    expect(statusOf(carNamed('Brenholt Coupe'))).toBe('finished')
    for (const name of ['Lindquell Estate', 'Brenholt Coupe'])
      expect(activeRepairs(carNamed(name)).every(isFinished)).toBe(true)
  })

  test('wait for an owner, a part and an inspector', () => {
    const open = cars.flatMap((car) =>
      [...car.variations.values()].filter(({ status }) => status === 'raised').map(() => car.name),
    )
    expect(open).toEqual(['Ostwick Pick-up'])
    const late = [...carNamed('Dunmere Saloon').parts.values()].filter(({ state }) => state === 'ordered')
    expect(late).toHaveLength(1)
    expect(late[0]?.expected).toMatch(/^2026-11-1\d$/)
    const holds = [...carNamed('Tamsel Estate').holds.values()]
    expect(holds.map(({ clears, cleared }) => [clears, cleared])).toEqual([['the inspector', null]])
  })

  test('went through a failed fit-up with rework before a good one', () => {
    const velloran = carNamed('Velloran 2+2')
    const [group] = velloran.fitGroups.values()
    const full = group?.fitUps.filter(({ kind }) => kind === 'full').map(({ good }) => good)
    expect(full).toEqual([false, true])
    expect(repairNamed('Velloran 2+2', 'Windscreen frame foot, left').gates.fabricated.reopened?.cause).toBe(
      'fit',
    )
    expect([...velloran.entries.values()].some(({ rework }) => rework.includes(true))).toBe(true)
  })

  test('came back from dipping without their primer, and one was closed as found', () => {
    const [away] = carNamed('Tamsel Estate').aways.values()
    expect(away?.returned).not.toBeNull()
    expect(repairNamed('Tamsel Estate', 'Battery tray').gates.primed.reopened?.cause).toBe('away')
    expect(repairNamed('Hesslow Van', 'Rear wheel arch, left').closedAsFound?.variationId).not.toBeNull()
  })

  test('have layers of every grade and parts that were rejected', () => {
    const layers = cars.flatMap((car) => activeRepairs(car).flatMap(({ layers }) => [...layers.values()]))
    const grades = new Set(layers.map(({ grade }) => grade))
    for (const grade of ['sound', 'surface', 'pitted', 'holed', 'gone', 'not seen'] as const)
      expect(grades).toContain(grade)
    const moves = readFacts(db, carNamed('Velloran 2+2').id).filter(({ kind }) => kind === 'partMoved')
    expect(moves.some(({ payload }) => 'state' in payload && payload.state === 'rejected')).toBe(true)
  })
})

describe('the people of the demo', () => {
  test('are at work: clocks run, one of them since the day before, and a fire watch goes on', () => {
    const running = entries().filter(({ time }) => time.kind === 'running')
    expect(running.map(({ personId }) => contactBook(db).nameOf(personId)).toSorted()).toEqual([
      'Bram',
      'Ines',
      'Joss',
      'Wren',
    ])
    const old = running.filter(({ stamp }) => stamp.happened < localToInstant(today, '00:00', ZONE))
    expect(old.map(({ personId }) => personId)).toEqual([demoPeople.bram.id])
    const watches = entries().flatMap(({ watch }) => (watch && !watch.completed ? [watch] : []))
    expect(watches).toHaveLength(1)
    expect((watches[0]?.from ?? 0) + (watches[0]?.minutes ?? 0) * MINUTES).toBeGreaterThan(until)
  })

  test('ask for a release that the manager has not given', () => {
    const asked = cars.flatMap((car) => activeRepairs(car).flatMap(({ releases }) => releases))
    expect(asked).toMatchObject([{ asked: true, code: 'curing', gate: 'primed' }])
  })

  test('work on working days only, and never more than eight hours or so', () => {
    const byDay = new Map<string, number>()
    for (const { personId, time } of entries()) {
      if (time.kind !== 'span') continue
      const date = time.start.slice(0, 10)
      const hours = (Date.parse(time.end) - Date.parse(time.start)) / (60 * MINUTES)
      byDay.set(`${personId} ${date}`, (byDay.get(`${personId} ${date}`) ?? 0) + hours)
      expect([0, 6]).not.toContain(new Date(`${date}T12:00:00Z`).getUTCDay())
    }
    expect(Math.max(...byDay.values())).toBeLessThan(8.2)
    const thisMonth = [...byDay].filter(([key]) => key.includes(' 2026-11-'))
    expect(thisMonth.reduce((sum, [, hours]) => sum + hours, 0)).toBeGreaterThan(400)
  })

  test('put a slip right in the open', () => {
    const kinds = [null, ...cars.map(({ id }) => id)].flatMap((id) =>
      readFacts(db, id).map(({ kind }) => kind),
    )
    for (const kind of ['timeCorrected', 'factVoided', 'gateReopened', 'supportLifted'] as const)
      expect(kinds).toContain(kind)
  })
})

describe('filling the demo', () => {
  test('is refused where there is a workshop already, and nothing is lost', async () => {
    const before = readFacts(db, null).length
    await expect(fillDemo({ db, photoStore, today, seed, photos: 'tiny' })).rejects.toThrow(
      'This folder holds a workshop already',
    )
    expect(readFacts(db, null)).toHaveLength(before)
  })

  test(
    'gives the same demo again from the same seed and day, and another from another seed',
    () => {
      const again = rehearseDemo({ today, until, seed })
      expect(commandsOf(again)).toEqual(commandsInJournal())
      expect(gradesIn(again)).toEqual(gradesInJournal())
      expect(commandsOf(rehearseDemo({ today, until, seed: 'another' }))).not.toEqual(commandsOf(again))
    },
    HOOK_MS,
  )

  test(
    'gives each of its cars away to another workshop, which shows the same car',
    () => {
      const here = createWorkshop({ now: until })
      const shown = (of: Database, carId: CarId) => {
        const car = readAllCars(of).find(({ id }) => id === carId)!
        const { nameOf } = contactBook(db)
        const view = carView({ car, now: until, workshop: readWorkshop(db), nameOf })
        const { sections, covers, fitGroups, photos, dimensions, repairs } = view
        const marks = repairs.map(({ id, name, depth, finished }) => ({ id, name, depth, finished }))
        return { sections, covers, fitGroups, photos, dimensions, marks }
      }
      for (const { id, attachments } of cars) {
        for (const { sha256 } of attachments.values()) copyPhoto(here.db, sha256)
        const { people, parties } = readWorkshop(db)
        const { contactOf } = contactBook(db)
        const ids = [...people.keys(), ...parties.keys()]
        const contacts = new Map(ids.flatMap((each) => (contactOf(each) ? [[each, contactOf(each)!]] : [])))
        bringIn(db, id, here.db, { now: until, id: commandIdSchema.parse(`bring-in-${id}`), contacts })
        expect(shown(here.db, id), id).toEqual(shown(db, id))
      }
      expect(readAllCars(here.db)).toHaveLength(cars.length)
      expect([...checkJournal(here.db.reader), ...checkDerived(here.db.reader)]).toEqual([])
      const { sqlite } = here.db.reader
      const rows = (table: string) => sqlite.prepare(`SELECT count(*) FROM ${table}`).pluck().get()
      for (const table of ['variance_sum', 'finished_repair', 'time_entry']) expect(rows(table)).toBe(0)
      here.close()
    },
    HOOK_MS,
  )

  test(
    'finds people at work before breakfast on a Monday too',
    () => {
      const early = localToInstant('2026-11-23', '06:05', ZONE)
      const script = rehearseDemo({ today: '2026-11-23', until: early, seed })
      const last = script.requests.at(-1)
      expect(last?.now).toBeLessThanOrEqual(early)
      const thisWeek = script.requests.filter(({ now }) => now >= monday)
      expect(new Set(thisWeek.flatMap(({ command }) => command.carId ?? [])).size).toBeGreaterThanOrEqual(6)
    },
    HOOK_MS,
  )
})

/** As if its bytes had come too. */
const copyPhoto = (into: Database, sha256: string): void => {
  const row = photoRow(db, sha256)
  if (row) into.writer.orm.insert(photo).values(row).onConflictDoNothing().run()
}

/** What was recorded when, without what chance adds in the journal: salts and hashes. */
/** Plans are taken beside what is rehearsed. */
const commandsInJournal = (): readonly string[] => {
  const facts = [null, ...cars.map(({ id }) => id)]
    .flatMap((id) => readFacts(db, id))
    .filter(({ kind }) => kind !== 'planTaken')
  const times = new Map(facts.map(({ number, commandId, made }) => [commandId, { number, made }]))
  return [...times]
    .toSorted(([, a], [, b]) => a.number - b.number)
    .map(([commandId, { made }]) => `${commandId} ${made}`)
}

const commandsOf = ({ requests }: ReturnType<typeof rehearseDemo>): readonly string[] =>
  requests.map(({ command }) => `${command.id} ${command.made}`)

const gradesIn = ({ requests }: ReturnType<typeof rehearseDemo>): readonly unknown[] =>
  requests.flatMap(({ command }) => (command.kind === 'gradeLayer' ? [command.payload] : []))

const gradesInJournal = (): readonly unknown[] =>
  cars
    .flatMap(({ id }) => readFacts(db, id))
    .filter(({ kind }) => kind === 'layerGraded')
    .toSorted((a, b) => a.number - b.number)
    .map(({ payload }) => payload)
