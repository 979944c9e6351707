/** Over 300 lines because one floor with its hours, its plans and its clock serves all of these tests. */
import { beforeEach, describe, expect, test } from 'vitest'
import { migrate, readMigrations } from '../../db/migrate.ts'
import { openDatabase } from '../../db/open-database.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { readVariance } from '../../db/stored-variance.ts'
import { readPlannedAmounts, readVarianceParts, readVarianceSums } from '../../db/variance-reads.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  entryIdSchema,
  repairIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
} from '../../domain/ids.ts'
import {
  DRILL_GROUPINGS,
  GROUPINGS,
  totalFigures,
  type VarianceGroup,
} from '../../domain/value/variance-groups.ts'
import { makeOlder } from '../support/older-database.ts'
import { repairPlan } from '../support/plans.ts'
import { type PieceOver, takePlan } from '../support/taken-plan.ts'
import { varianceSums } from '../support/variance-sums.ts'
import { sure } from '../support/varied.ts'
import { createWorkshop, fullWeek, painter, welder, type Workshop } from '../support/workshop.ts'

const floor = repairIdSchema.parse('repair-floor')
const visitId = visitIdSchema.parse('visit-s-101')
const onGate = (gate: Gate) => ({ kind: 'gate' as const, repairId: floor, gate })
const entry = (name: string) => entryIdSchema.parse(`entry-${name}`)

let workshop: Workshop
let carId: CarId

/** Monday, 23 November 2026, 08:00; a floor of 2 h a gate, paid by the workshop and so authorised as it is added. */
beforeEach(() => {
  workshop = createWorkshop()
  carId = workshop.addCar()
  addFloor(workshop, carId)
})

function addFloor(of: Workshop, to: CarId): void {
  const links = { covers: [], coveredBy: [] }
  const plan = repairPlan('Floor')
  of.run('addRepair', { repairId: floor, type: null, plan, payer: 'workshop', ...links }, { carId: to })
}

/** All of a gate's work on one day. */
const piece = (gate: Gate, date: string, over: Partial<PieceOver> = {}): PieceOver => ({
  carId,
  visitId,
  target: onGate(gate),
  start: `${date}T08:00:00+01:00`,
  finish: `${date}T12:00:00+01:00`,
  ...over,
})
const takeWith = (name: string, ...pieces: readonly PieceOver[]) => takePlan(workshop, name, pieces)

const datesOf = (of: Workshop = workshop) =>
  new Map(
    [...readPlannedAmounts(of.db, carId)].map(([id, days]) => [
      id.replace(/^line-repair-floor-/, ''),
      days.map(({ date }) => date),
    ]),
  )
/** The days of each amount that has a plan. */
const plannedDates = () =>
  [...datesOf().values()].flatMap((dates) => (dates.length > 0 ? [dates.join(' to ')] : [])).toSorted()

const logTime = (name: string, hours: number, gate: Gate = 'opened') =>
  workshop.run(
    'logTime',
    {
      entryId: entry(name),
      personId: welder,
      on: { kind: 'work', targets: [onGate(gate)] },
      hotWork: false,
      cause: null,
      time: { kind: 'day', date: '2026-11-23', hours },
      shares: null,
      note: '',
    },
    { carId, by: welder },
  )
const pass = (gate: Gate) =>
  workshop.run('passGate', { repairIds: [floor], gate, did: [welder], coat: null, note: '' }, { carId })

function vary(name: string, hours: number, gate: Gate): void {
  const variationId = variationIdSchema.parse(`variation-${name}`)
  const words = { title: name, why: 'it was found', ifNot: '' }
  const nothing = { findings: [], attachments: [], costs: [] }
  const lines = [sure(onGate(gate), hours)]
  workshop.run(
    'raiseVariation',
    { variationId, visitId, payer: 'owner', ...words, ...nothing, lines },
    { carId },
  )
  const answer = { decision: 'accepted', changed: null, how: 'call', note: '' } as const
  workshop.run('decideVariation', { variationId, ...answer }, { carId })
}

describe('the plan that planned value comes from', () => {
  test('is the first one taken afterwards, where the estimate was accepted before any plan', () => {
    expect(plannedDates()).toEqual([])
    takeWith('first', piece('opened', '2026-11-24'), piece('assessed', '2026-11-25'))
    expect(plannedDates()).toEqual(['2026-11-24', '2026-11-25'])
  })

  test('stays when another plan is taken', () => {
    takeWith('first', piece('opened', '2026-11-24'))
    takeWith('second', piece('opened', '2026-12-01'), piece('assessed', '2026-12-02'))
    // Only the second knows the gate assessed.
    expect(plannedDates()).toEqual(['2026-11-24', '2026-12-02'])
  })

  test('of a variation is the one in force when it was accepted', () => {
    takeWith('first', piece('opened', '2026-11-24'))
    takeWith('second', piece('opened', '2026-12-01'))
    vary('more', 3, 'opened')
    takeWith('third', piece('opened', '2026-12-08'))
    expect(plannedDates()).toEqual(['2026-11-24', '2026-12-01'])
  })

  test('of a variation on work that this one does not know is the next that does', () => {
    takeWith('first', piece('opened', '2026-11-24'))
    vary('more', 3, 'welded')
    takeWith('second', piece('opened', '2026-12-01'))
    takeWith('third', piece('welded', '2026-12-08'))
    const ofVariation = [...datesOf()].find(([id]) => id.startsWith('variation-more'))
    expect(ofVariation?.[1]).toEqual(['2026-12-08'])
  })

  test('of an acceptance that was voided and given again is the one in force then', () => {
    takeWith('first', piece('opened', '2026-11-24'))
    vary('more', 3, 'opened')
    takeWith('second', piece('opened', '2026-12-01'))
    const variationId = variationIdSchema.parse('variation-more')
    const number = workshop.car(carId).variations.get(variationId)!.decided!.number
    workshop.run('voidFact', { number, reason: 'said by the wrong owner' }, { carId })
    expect([...datesOf().keys()].some((id) => id.startsWith('variation-more'))).toBe(false)
    const answer = { decision: 'accepted', changed: null, how: 'call', note: '' } as const
    workshop.run('decideVariation', { variationId, ...answer }, { carId })
    expect([...datesOf()].find(([id]) => id.startsWith('variation-more'))?.[1]).toEqual(['2026-12-01'])
  })

  test('is spread by the calendars of the day on which it was taken, whatever is changed later', () => {
    const long = {
      start: '2026-11-24T08:00:00+01:00',
      finish: '2026-11-25T16:30:00+01:00',
      people: [painter],
    }
    takeWith('first', piece('opened', '2026-11-24', long))
    workshop.run('changePerson', {
      personId: painter,
      roles: ['technician'],
      skills: ['paint', 'metalwork'],
      week: fullWeek,
      absences: [{ from: '2026-11-25', to: '2026-11-25' }],
      active: true,
      contact: { name: 'Tomasz Hale', phone: '', email: '', address: '' },
    })
    expect(plannedDates()).toEqual(['2026-11-24 to 2026-11-25'])
    const kept = readVariance(workshop.db.reader)
    rebuildDerived(workshop.db)
    expect(readVariance(workshop.db.reader)).toEqual(kept)
  })
})

/** Two gates passed, hours and rework, a variation, a plan that goes on into next week, a clock that runs. */
function busyDays(): void {
  takeWith('first', ...GATES.map((gate, index) => piece(gate, `2026-11-2${4 + (index % 4)}`)))
  takeWith('second', ...GATES.map((gate, index) => piece(gate, `2026-12-0${1 + (index % 4)}`)))
  vary('more', 3, 'welded')
  logTime('a', 2.25)
  pass('opened')
  logTime('b', 1.5, 'assessed')
  workshop.pass({ hours: 25 })
  const clock = { personId: welder, hotWork: false, cause: null }
  const targets = [onGate('assessed'), onGate('fabricated')]
  workshop.run(
    'startClock',
    { ...clock, entryId: entry('clock'), on: { kind: 'work', targets } },
    { carId, by: welder },
  )
  workshop.pass({ hours: 2 })
}

const rounded = (groups: readonly VarianceGroup[]) =>
  groups
    .map(({ key, figures, causes }) => ({
      key,
      causes: [...causes].map(([cause, hours]) => [cause, hours.toFixed(6)]),
      figures: Object.fromEntries(
        Object.entries(figures).map(([name, hours]) => [
          name,
          (hours + 0).toFixed(6).replace(/^-0\.0*$/, '0.000000'),
        ]),
      ),
    }))
    .toSorted((a, b) => (a.key < b.key ? -1 : 1))

describe('the sums of the tables', () => {
  test('are those of the states of the cars, with a clock that runs and days that are still to come', () => {
    busyDays()
    const other = workshop.addCar('Teasel', 'S-102')
    const context = { at: workshop.now, workshop: readWorkshop(workshop.db) }
    const cars = readAllCars(workshop.db)
    expect(cars.map(({ id }) => id)).toContain(other)
    const due = varianceSums(cars, context, readPlannedAmounts(workshop.db, carId))
    const kept = readVarianceSums(workshop.db, workshop.now)
    for (const grouping of DRILL_GROUPINGS) {
      const causes = grouping === 'gate' || grouping === 'type'
      const withoutCauses = (groups: readonly VarianceGroup[]) =>
        rounded(groups).map(({ causes: own, ...group }) => (causes ? { ...group, causes: own } : group))
      expect(withoutCauses(kept.groups[grouping]), grouping).toEqual(withoutCauses(due.groups[grouping]))
    }
    expect(kept.visits).toEqual(due.visits)
    // The clock and the plan play a part.
    const whole = totalFigures(kept.groups.visit)
    expect(whole.spent).toBeCloseTo(2.25 + 1.5 + 2, 9)
    expect(whole.planned).toBeCloseTo(2 * 2, 9)
    expect(kept.visits[0]!.schedule).not.toBeNull()
  })

  test('add up to the same in every grouping, and a figure to its parts', () => {
    busyDays()
    const { groups } = readVarianceSums(workshop.db, workshop.now)
    const whole = rounded([{ key: '', figures: totalFigures(groups.visit), causes: new Map() }])
    for (const grouping of GROUPINGS) {
      const sum = { key: '', figures: totalFigures(groups[grouping]), causes: new Map() }
      expect(rounded([sum]), grouping).toEqual(whole)
      for (const { key, figures } of groups[grouping]) {
        const parts = totalFigures(readVarianceParts(workshop.db, { grouping, key }, workshop.now))
        expect(rounded([{ key, figures: parts, causes: new Map() }]), `${grouping} ${key}`).toEqual(
          rounded([{ key, figures, causes: new Map() }]),
        )
      }
    }
  })

  test('are as they were when an hour is voided and entered again', () => {
    busyDays()
    const before = readVarianceSums(workshop.db, workshop.now)
    const { stamp } = workshop.car(carId).entries.get(entry('a'))!
    workshop.run('voidFact', { number: stamp.number, reason: 'on the wrong car' }, { carId })
    const without = totalFigures(readVarianceSums(workshop.db, workshop.now).groups.visit)
    expect(without.spent).toBeCloseTo(totalFigures(before.groups.visit).spent - 2.25, 9)
    logTime('a-again', 2.25)
    const after = readVarianceSums(workshop.db, workshop.now)
    for (const grouping of DRILL_GROUPINGS)
      expect(rounded(after.groups[grouping]), grouping).toEqual(rounded(before.groups[grouping]))
  })

  test('are those that a rebuilt table gives', () => {
    busyDays()
    const kept = readVariance(workshop.db.reader)
    expect(kept.get(carId)!.size).toBeGreaterThan(20)
    rebuildDerived(workshop.db)
    expect(readVariance(workshop.db.reader)).toEqual(kept)
  })

  test('leave rows alone when a fact plays no part in hours, and those of other cars when one does', () => {
    const other = workshop.addCar('Teasel', 'S-102')
    const changesOf = (act: () => void) => {
      const before = workshop.db.writer.sqlite.prepare('SELECT total_changes()').pluck().get() as number
      act()
      return (workshop.db.writer.sqlite.prepare('SELECT total_changes()').pluck().get() as number) - before
    }
    const note = () => workshop.run('addNote', { text: 'The keys are in the office.' }, { carId })
    const few = changesOf(note)
    busyDays()
    expect(changesOf(note)).toBe(few)
    const watched = workshop.db.writer.sqlite
    watched.exec(`CREATE TEMP TABLE touched (car_id TEXT);
      CREATE TEMP TRIGGER t1 AFTER INSERT ON main.variance_sum BEGIN INSERT INTO touched VALUES (new.car_id); END`)
    logTime('c', 1)
    const touched = new Set(watched.prepare('SELECT car_id FROM touched').pluck().all())
    expect(touched).toEqual(new Set([carId]))
    expect(touched.has(other)).toBe(false)
  })
})

test('a database from before Variance was summed gets its sums when it is opened', () => {
  const inFolder = createWorkshop({ keptIn: 'folder' })
  const of = inFolder.addCar()
  addFloor(inFolder, of)
  const kept = readVariance(inFolder.db.reader)
  inFolder.db.close()
  makeOlder(inFolder.dataDir!, 2)
  const opened = openDatabase(inFolder.dataDir!)
  expect(kept.size).toBe(1)
  expect(readVariance(opened.reader)).toEqual(kept)
  expect(migrate(opened.writer)).toBe(readMigrations().length)
  opened.close()
  inFolder.reopen()
  inFolder.close()
})

test('what the screen asks for is found by indexes', () => {
  const planOf = (text: string) =>
    (workshop.db.reader.sqlite.prepare(`EXPLAIN QUERY PLAN ${text}`).all() as { detail: string }[]).map(
      ({ detail }) => detail,
    )
  expect(planOf(`SELECT 1 FROM variance_sum WHERE grouped_by = 'gate' AND key = 'welded'`)).toEqual([
    expect.stringContaining('USING PRIMARY KEY (grouped_by=? AND key=?)'),
  ])
  expect(planOf('SELECT grouped_by, key, sum(spent) FROM variance_sum GROUP BY grouped_by, key')).toEqual([
    'SCAN variance_sum',
  ])
  const days = `SELECT DISTINCT car_id FROM variance_day INDEXED BY variance_day_by_date WHERE date > '2026-11-23'`
  expect(planOf(days)[0]).toContain('USING COVERING INDEX variance_day_by_date (date>?)')
  expect(
    planOf('SELECT DISTINCT car_id FROM time_entry WHERE ended = 8640000000000000 AND car_id IS NOT NULL'),
  ).toEqual([expect.stringContaining('time_entry_running')])
})
