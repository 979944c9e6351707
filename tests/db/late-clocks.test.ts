import { expect, test } from 'vitest'
import { entryIdSchema, type EntryId } from '../../domain/ids.ts'
import { createWorkshop, welder, type Workshop } from '../support/workshop.ts'

/*
 * A clock that is sent at once takes the host's time on arrival, one that waited on a device the time of its entry. What was
 * done in turn must stay so where the first was long on its way.
 */

const SECOND = 1_000

const first = entryIdSchema.parse('entry-first')
const second = entryIdSchema.parse('entry-second')

function start(workshop: Workshop, entryId: EntryId, happened: string | null = null) {
  const on = { kind: 'workshop' as const, what: 'Sweeping' }
  const payload = { entryId, personId: welder, on, hotWork: false, cause: null }
  return workshop.send('startClock', payload, { by: welder, happened })
}
const stop = (workshop: Workshop, entryId: EntryId, happened: string | null = null) =>
  workshop.send('stopClock', { entryId, overtime: true, shares: null }, { by: welder, happened })

const ago = (workshop: Workshop, ms: number) => new Date(workshop.now - ms).toISOString()

function spans(workshop: Workshop) {
  const rows = workshop.db.reader.sqlite
    .prepare('SELECT started, ended FROM time_entry ORDER BY started')
    .all()
  return rows as readonly { readonly started: number; readonly ended: number }[]
}

test('a clock stated a little before the last one was stopped starts where that ended', () => {
  const workshop = createWorkshop()
  start(workshop, first)
  workshop.pass({ hours: 1 })
  stop(workshop, first)
  const stopped = workshop.now
  workshop.now += 30 * SECOND
  expect(start(workshop, second, ago(workshop, 34 * SECOND))).toMatchObject({ ok: true })
  expect(spans(workshop).at(-1)).toMatchObject({ started: stopped })
})

test('a clock stated more than a minute before the last one was stopped is refused', () => {
  const workshop = createWorkshop()
  start(workshop, first)
  workshop.pass({ hours: 1 })
  stop(workshop, first)
  workshop.now += 30 * SECOND
  expect(start(workshop, second, ago(workshop, 91 * SECOND))).toMatchObject({
    ok: false,
    refusal: { code: 'overlap' },
  })
})

test('a clock stated to stop a little before its start stops just after it', () => {
  const workshop = createWorkshop()
  start(workshop, first)
  const started = workshop.now
  workshop.now += 40 * SECOND
  expect(stop(workshop, first, ago(workshop, 45 * SECOND))).toMatchObject({ ok: true })
  expect(spans(workshop)).toMatchObject([{ started, ended: started + SECOND }])
})

test('a clock stated to stop long before its start is refused', () => {
  const workshop = createWorkshop()
  start(workshop, first)
  workshop.now += 40 * SECOND
  expect(stop(workshop, first, ago(workshop, 120 * SECOND))).toMatchObject({
    ok: false,
    refusal: { code: 'bad-input' },
  })
})
