import Sqlite from 'better-sqlite3'
import { afterAll, beforeAll, expect, test, vi } from 'vitest'
import { everyAnswer } from '../support/every-view.ts'
import { createTestHost, type TestHost } from '../support/host.ts'
import { manager } from '../support/workshop.ts'
import { tellEverything } from '../support/whole.ts'

/** What grows with the years; the other tables are as small as the workshop, or have a row for each car. */
const GROWING: ReadonlySet<string> = new Set([
  'journal',
  'payload',
  'command_answer',
  'time_entry',
  'attachment',
  'photo',
  'report',
  'finished_repair',
  'searched',
  'planned_amount',
  'variance_sum',
  'variance_visit',
  'variance_day',
  'kept_plan',
  'kept_plan_car',
])

/** What tells of all years on purpose, or of few rows by an index of its own, by the beginning of its text. */
const OF_ALL_YEARS: readonly string[] = [
  'SELECT count(*) AS count, coalesce(max(sequence), 0) AS last FROM finished_repair',
  // Only after rows were taken out.
  'SELECT sequence FROM finished_repair',
  'select count(*), sum("bytes") from "photo"',
  // Before a contact is erased, which is seldom; by the index of the lines that open visits.
  'SELECT id FROM car WHERE id IN (SELECT chain FROM journal',
  // By the index of those that wait for a plan.
  'SELECT car_id AS carId, amount_id AS amountId, visit_id AS visitId, target AS target,',
  'SELECT grouped_by AS grouping, key, sum(baseline) AS baseline,',
  'SELECT visit_id AS visitId, car_id AS carId, kind, schedule,',
  // The list of all questions itself.
  'select "grouped_by", "key", "visit_id", "car_id",',
]

let host: TestHost
/** Every text that was prepared while every kind of command was sent and every view was asked for. */
const statements = new Set<string>()

beforeAll(async () => {
  const { prepare } = Sqlite.prototype
  vi.spyOn(Sqlite.prototype, 'prepare').mockImplementation(function (this: Sqlite.Database, text: string) {
    statements.add(text)
    return prepare.call(this, text)
  } as typeof prepare)
  host = await createTestHost()
  await tellEverything(host)
  const screen = await host.openScreen()
  await screen.signIn(manager)
  await everyAnswer(screen, host.workshop.db)
  vi.restoreAllMocks()
})
afterAll(() => host.close())

function stepsOf(text: string): readonly string[] {
  const values = [...text.matchAll(/\?/g)].map(() => 0)
  const named = Object.fromEntries([...text.matchAll(/@(\w+)/g)].map(([, name]) => [name, 0]))
  const { sqlite } = host.workshop.db.writer
  const steps = sqlite.prepare(`EXPLAIN QUERY PLAN ${text}`).all(...values, named)
  return (steps as readonly { readonly detail: string }[]).map(({ detail }) => detail)
}

test('nothing goes through a table that grows with the years, but for what tells of all years', () => {
  const asked = [...statements].filter((text) => /^\s*(select|update|delete|replace|insert)/i.test(text))
  expect(asked.length).toBeGreaterThan(80)
  const scanning = asked
    .map((text) => text.replaceAll(/\s+/g, ' '))
    .filter((text) =>
      stepsOf(text).some((step) => {
        const table = /^SCAN (\w+)/.exec(step)?.[1] ?? ''
        return GROWING.has(table)
      }),
    )
  expect(scanning.filter((text) => !OF_ALL_YEARS.some((known) => text.startsWith(known)))).toEqual([])
  for (const known of OF_ALL_YEARS) expect(scanning.some((text) => text.startsWith(known))).toBe(true)
})

test('views of today find the cars that do not rest by their index', () => {
  const ofToday = [...statements].filter((text) => text.includes('rests_until >='))
  expect(ofToday).toHaveLength(1)
  const steps = ofToday.flatMap(stepsOf)
  expect(steps).toContain('SEARCH car USING INDEX car_by_rest (rests_until=?)')
  expect(steps).toContain('SEARCH car USING INDEX car_by_rest (rests_until>?)')
  expect(steps.filter((step) => step.startsWith('SCAN'))).toEqual([])
})
