import { drizzle } from 'drizzle-orm/better-sqlite3'
import { describe, expect, test } from 'vitest'
import { contactBook } from '../../db/contacts.ts'
import type { Database } from '../../db/database.ts'
import { createStateCache } from '../../db/state-cache.ts'
import { readDerived } from '../../db/derived.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { readVariance } from '../../db/stored-variance.ts'
import { linkHeads } from '../../db/link-heads.ts'
import { keepPlan, planHistory, readPlan } from '../../db/plans.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { readAllCars, readWorkshop } from '../../db/reads.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { factSchemas } from '../../domain/facts.ts'
import { entryIdSchema, planIdSchema } from '../../domain/ids.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { carPayload, createWorkshop, desk, storageBay, welder, type Workshop } from '../support/workshop.ts'
import { recordEveryKind } from './every-kind.ts'

/** A workshop whose journal holds every kind of fact. */
function busyWorkshop(): Workshop {
  const workshop = createWorkshop()
  const digests = ['a', 'b', 'c'].map((letter) => letter.repeat(64))
  const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
  for (const sha256 of digests) recordPhoto(workshop.db, { sha256, byteCount: 1234, facts }, workshop.now)
  recordEveryKind(workshop, digests, 'd'.repeat(64))
  return workshop
}

describe('the derived tables', () => {
  test('say the same after every kind of fact as when they are made anew', () => {
    const workshop = busyWorkshop()
    const kinds = workshop.db.writer.sqlite.prepare('SELECT DISTINCT kind FROM journal').pluck().all()
    expect(new Set(kinds)).toEqual(new Set(Object.keys(factSchemas)))
    const before = readDerived(workshop.db.writer)
    for (const rows of Object.values(before)) expect(rows).not.toEqual([])
    const variance = readVariance(workshop.db.writer)
    expect(variance.size).toBeGreaterThan(0)
    rebuildDerived(workshop.db)
    expect(readDerived(workshop.db.writer)).toEqual(before)
    expect(readVariance(workshop.db.writer)).toEqual(variance)
  })

  test('are made anew from nothing, and the states in memory with them', () => {
    const workshop = busyWorkshop()
    const before = readAllCars(workshop.db)
    const entries = readWorkshop(workshop.db).entries
    for (const table of ['car', 'booking', 'time_entry', 'attachment', 'report'])
      workshop.db.writer.sqlite.exec(`DELETE FROM ${table}`)
    expect(readAllCars(workshop.db)).toEqual([])
    rebuildDerived(workshop.db)
    expect(readAllCars(workshop.db)).toEqual(before)
    expect(readWorkshop(workshop.db).entries).toEqual(entries)
  })

  test('hold no row of what was voided, cancelled or replaced', () => {
    const workshop = busyWorkshop()
    const { bookings, entries } = readDerived(workshop.db.writer)
    expect(bookings.map(({ id }) => id)).toEqual(['booking-first'])
    expect(entries.map(({ id }) => id)).toEqual([
      'entry-evening',
      'entry-morning',
      'entry-paper-2',
      'entry-sweeping',
    ])
  })
})

describe('the statements of commands and screens', () => {
  test('find what they look for by an index, but for the small tables that are read whole on purpose', () => {
    const workshop = busyWorkshop()
    const statements = new Set<string>()
    const db = watched(workshop.db, (text) => statements.add(text))
    const [car] = readAllCars(db)
    contactBook(db)
    const commands = [
      workshop.command('addNote', { text: 'Watched.' }, { carId: car!.id }),
      workshop.command('addCar', carPayload('Teasel', 'S-102')),
      workshop.command(
        'moveShell',
        { bayId: storageBay, fixture: 'stands', note: '' },
        { carId: carPayload('Teasel', 'S-102').carId },
      ),
      workshop.command('startClock', {
        entryId: entryIdSchema.parse('entry-watched'),
        personId: welder,
        on: { kind: 'workshop', what: 'Sweeping' },
        hotWork: false,
        cause: null,
      }),
    ]
    for (const command of commands)
      expect(executeCommand(db, { command, device: desk, second: null, now: workshop.now }).ok).toBe(true)
    const planId = planIdSchema.parse('plan-watched')
    const plan = simplePlan(car!.id)
    keepPlan(db, { planId, plan, why: 'proposal', cause: '', revision: 1 }, workshop.now)
    expect(readPlan(db, planId)).toEqual(plan)
    expect(planHistory(db, car!.id)).toHaveLength(2)
    linkHeads(db, workshop.now)
    expect(statements.size).toBeGreaterThan(20)
    const plans = [...statements].flatMap((text) => planOf(workshop, text))
    const scanned = plans.flatMap((step) => /^SCAN (\w+)/.exec(step)?.[1] ?? [])
    expect(new Set(scanned)).toEqual(new Set(['car', 'booking', 'planned_amount']))
    // Of the amounts only those that wait for a plan.
    expect(plans).toContain('SCAN planned_amount USING INDEX planned_amount_without_plan')
    expect(plans).toContain('SEARCH variance_sum USING INDEX variance_sum_by_car (car_id=?)')
    expect(plans).toContain('SEARCH variance_visit USING INDEX variance_visit_by_car (car_id=?)')
    expect(plans).toContain('SEARCH time_entry USING INDEX time_entry_by_person (person_id=? AND ended>?)')
    expect(plans).toContain('SEARCH kept_plan_car USING INDEX kept_plan_car_by_car (car_id=?)')
    expect(plans).toContain('SEARCH kept_plan USING INDEX kept_plan_by_why (why=?)')
    expect(plans).toContain('SEARCH journal USING INDEX sqlite_autoindex_journal_1 (chain=?)')
  })
})

/** The same database on a connection that tells every statement that is prepared on it. */
function watched(db: Database, tell: (text: string) => void): Database {
  const sqlite = new Proxy(db.writer.sqlite, {
    get(target, name) {
      const value: unknown = Reflect.get(target, name)
      if (typeof value !== 'function') return value
      return (...args: readonly unknown[]): unknown => {
        if (name === 'prepare') tell(String(args[0]))
        return Reflect.apply(value, target, args)
      }
    },
  })
  const handle = { sqlite, orm: drizzle({ client: sqlite }) }
  return { ...db, reader: handle, writer: handle, cache: createStateCache() }
}

function planOf({ db }: Workshop, text: string): readonly string[] {
  const values = [...text.matchAll(/\?/g)].map(() => 0)
  const named = Object.fromEntries([...text.matchAll(/@(\w+)/g)].map(([, name]) => [name, 0]))
  const steps = db.writer.sqlite.prepare(`EXPLAIN QUERY PLAN ${text}`).all(...values, named)
  return (steps as readonly { readonly detail: string }[]).map(({ detail }) => detail)
}
