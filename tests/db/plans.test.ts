import { createHash } from 'node:crypto'
import { deflateRawSync, inflateRawSync } from 'node:zlib'
import { beforeEach, describe, expect, test } from 'vitest'
import { checkPlans } from '../../db/check-plans.ts'
import { openWriter } from '../../db/handle.ts'
import { readFacts } from '../../db/journal.ts'
import { migrate, readMigrations } from '../../db/migrate.ts'
import {
  keepPlan,
  planHistory,
  planInForce,
  PROPOSALS_KEPT,
  readPlan,
  type PlanToKeep,
} from '../../db/plans.ts'
import { readWorkshop } from '../../db/reads.ts'
import { carIdSchema, planIdSchema, type CarId } from '../../domain/ids.ts'
import { usualPlanning } from '../../domain/usual-workshop.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { createWorkshop, manager, welder, type Workshop } from '../support/workshop.ts'

let workshop: Workshop
let carId: CarId

beforeEach(() => {
  workshop = createWorkshop()
  carId = workshop.addCar()
})

const id = (name: string) => planIdSchema.parse(`plan-${name}`)
/** Keeps a plan in which the car is finished on a day of March 2027; the clock goes on by an hour. */
const keep = (name: string, march = 22, over: Partial<PlanToKeep> = {}) => {
  const plan = simplePlan(carId, { finish50: Date.UTC(2027, 2, march) })
  keepPlan(
    workshop.db,
    { planId: id(name), plan, why: 'proposal', cause: `cause of ${name}`, revision: 7, ...over },
    workshop.now,
  )
  workshop.pass({ hours: 1 })
  return plan
}
const take = (name: string) => workshop.run('takePlan', { planId: id(name) })
const damage = (name: string) =>
  workshop.db.writer.sqlite.prepare(`UPDATE kept_plan SET content = x'0102' WHERE plan_id = ?`).run(id(name))
const history = () => planHistory(workshop.db, carId).map(({ planId, why }) => [planId, why])
const planFacts = () => readFacts(workshop.db, null).filter(({ kind }) => kind === 'planTaken')

describe('a plan that is kept', () => {
  test('is read again as it was, and not under another id', () => {
    const plan = keep('first')
    expect(readPlan(workshop.db, id('first'))).toEqual(plan)
    expect(readPlan(workshop.db, id('none'))).toBeNull()
  })

  test('lies under the SHA-256 of its canonical JSON (RFC 8785), which is what a reader inflates', () => {
    keep('first')
    const { sha256, content } = workshop.db.reader.sqlite
      .prepare('SELECT sha256, content FROM kept_plan')
      .get() as { readonly sha256: string; readonly content: Buffer }
    const json = inflateRawSync(content)
    expect(sha256).toBe(createHash('sha256').update(json).digest('hex'))
    // Keys in order of their UTF-16 code units, no blanks (RFC 8785, 3.2).
    expect(json.toString()).toMatch(
      /^\{"cars":\[\{"carId":"car-s-101","drivers":\[\{"name":"Boot floor","share":0.6\}\]/,
    )
  })

  test('is kept once under its id', () => {
    keep('first')
    expect(() => keep('first')).toThrow(/UNIQUE/)
  })

  test('is not read when its content is not what it was', () => {
    keep('first')
    damage('first')
    expect(readPlan(workshop.db, id('first'))).toBeNull()
    expect(checkPlans(workshop.db.reader).map(({ what }) => what)).toEqual([
      'The plan plan-first is not what was kept.',
    ])
  })

  test.each([
    ['what is no JSON', 'not a plan'],
    ['another shape', '{"madeAt":1}'],
  ])('is not read when it holds %s, even under its right digest', (_name, text) => {
    keep('first')
    workshop.db.writer.sqlite
      .prepare('UPDATE kept_plan SET content = ?, sha256 = ?')
      .run(deflateRawSync(text), createHash('sha256').update(text).digest('hex'))
    expect(readPlan(workshop.db, id('first'))).toBeNull()
  })
})

describe('taking a plan', () => {
  test('puts it in force, with its digest, its cause and the finishes of its cars in the journal', () => {
    const plan = keep('first')
    expect(planInForce(workshop.db)).toBeNull()
    const at = workshop.now
    take('first')
    expect(planInForce(workshop.db)).toEqual({ planId: id('first'), plan, takenAt: at, takenBy: manager })
    const [car] = plan.cars
    expect(planFacts().map(({ payload }) => payload)).toEqual([
      {
        planId: id('first'),
        sha256: readWorkshop(workshop.db).planTaken?.sha256,
        cause: 'cause of first',
        cars: [{ carId, finish50: car!.finish50, finish80: car!.finish80 }],
      },
    ])
    expect(checkPlans(workshop.db.reader)).toEqual([])
  })

  test('is refused for a plan that is not kept, was taken, or is not what was kept', () => {
    const refused = (name: string) => workshop.refused('takePlan', { planId: id(name) })
    expect(refused('none')).toMatchObject({ code: 'unknown', message: 'This plan is not kept any more.' })
    keep('first')
    take('first')
    keep('second')
    take('second')
    for (const name of ['first', 'second'])
      expect(refused(name)).toMatchObject({ code: 'already', message: 'This plan was taken already.' })
    keep('third')
    damage('third')
    expect(refused('third')).toMatchObject({
      code: 'storage',
      message: 'What is kept of this plan was changed.',
    })
    expect(planFacts()).toHaveLength(2)
  })

  test('is for the manager, and for nobody only where plans are taken by themselves', () => {
    keep('first')
    const payload = { planId: id('first') }
    expect(workshop.refusalCode('takePlan', payload, { by: welder })).toBe('not-allowed')
    expect(workshop.refusalCode('takePlan', payload, { by: null })).toBe('not-allowed')
    workshop.run('setPlanning', { ...usualPlanning, takeByItself: true })
    expect(workshop.refusalCode('setPlanning', usualPlanning, { by: null })).toBe('not-allowed')
    workshop.run('takePlan', payload, { by: null })
    expect(planInForce(workshop.db)).toMatchObject({ planId: id('first'), takenBy: null })
  })

  test('that cannot be recorded leaves it a proposal', () => {
    keep('first')
    const command = workshop.command('takePlan', { planId: id('first') })
    expect(workshop.send('takePlan', { planId: id('first') }, { id: command.id, seen: 0 }).ok).toBe(false)
    expect(history()).toEqual([])
    take('first')
    expect(history()).toEqual([[id('first'), 'taken']])
  })

  test('leaves the plan in force unread when its content was changed since', () => {
    keep('first')
    take('first')
    damage('first')
    expect(planInForce(workshop.db)).toBeNull()
  })
})

describe("a car's history", () => {
  test('tells each kept plan from the last to the first, with why, cause and finishes, and no proposal', () => {
    keep('morning')
    take('morning')
    keep('moved', 25, { why: 'moved' })
    keep('evening', 25, { why: 'day end' })
    keep('idea', 24)
    expect(history()).toEqual([
      [id('evening'), 'day end'],
      [id('moved'), 'moved'],
      [id('morning'), 'taken'],
    ])
    expect(planHistory(workshop.db, carId)[1]).toEqual({
      planId: id('moved'),
      keptAt: Date.parse('2026-11-23T09:00:00+01:00'),
      why: 'moved',
      cause: 'cause of moved',
      finish50: Date.UTC(2027, 2, 25),
      finish80: Date.parse('2027-03-29T16:30:00+02:00'),
    })
    expect(planHistory(workshop.db, carIdSchema.parse('car-other'))).toEqual([])
  })

  test('says of a taken plan when it was taken, not when it was proposed', () => {
    keep('first')
    workshop.pass({ hours: 3 })
    take('first')
    expect(planHistory(workshop.db, carId)[0]?.keptAt).toBe(workshop.now)
  })

  test('goes on when the host is started anew', () => {
    const inFolder = createWorkshop({ keptIn: 'folder' })
    const other = inFolder.addCar()
    const plan = simplePlan(other)
    const planId = id('first')
    keepPlan(inFolder.db, { planId, plan, why: 'proposal', cause: '', revision: 1 }, inFolder.now)
    inFolder.run('takePlan', { planId })
    inFolder.restart()
    expect(planInForce(inFolder.db)?.plan).toEqual(plan)
    expect(planHistory(inFolder.db, other)).toHaveLength(1)
    inFolder.close()
  })
})

describe('proposals that nobody took', () => {
  test('are thinned to the last few with their finishes, and nothing else is', () => {
    keep('taken')
    take('taken')
    keep('moved', 25, { why: 'moved' })
    const names = Array.from({ length: PROPOSALS_KEPT + 3 }, (_, index) => `idea-${index}`)
    for (const name of names) keep(name)
    const kept = (table: string) =>
      new Set(workshop.db.reader.sqlite.prepare(`SELECT plan_id FROM ${table}`).pluck().all())
    const due = new Set(['taken', 'moved', ...names.slice(-PROPOSALS_KEPT)].map(id))
    expect(kept('kept_plan')).toEqual(due)
    expect(kept('kept_plan_car')).toEqual(due)
  })
})

test('a database from before plans were kept is brought up to date, and a plan can be kept in it', () => {
  const writer = openWriter(':memory:')
  migrate(writer, readMigrations().slice(0, 1))
  writer.sqlite.exec(`INSERT INTO setting VALUES ('network', 'on')`)
  expect(migrate(writer)).toBe(1)
  expect(writer.sqlite.prepare('SELECT value FROM setting').pluck().all()).toEqual(['on'])
  const db = { ...workshop.db, writer, reader: writer }
  keepPlan(db, { planId: id('first'), plan: simplePlan(carId), why: 'moved', cause: '', revision: 1 }, 0)
  expect(planHistory(db, carId)).toHaveLength(1)
  writer.sqlite.close()
})
