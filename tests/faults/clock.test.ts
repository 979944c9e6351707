import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { verifyCode } from '../../db/codes.ts'
import { factsSince } from '../../db/journal.ts'
import { readSetting } from '../../db/settings.ts'
import { entryIdSchema, type CarId } from '../../domain/ids.ts'
import { usualReports } from '../../domain/usual-workshop.ts'
import { createPairingCodes } from '../../electron/api/pairing-code.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { createWorkshop, desk, firstMorning, manager, welder } from '../support/workshop.ts'

const MINUTE = 60_000
const HOUR = 60 * MINUTE
const DAY = 24 * HOUR
const YEAR = 365 * DAY

describe('a clock that is set back an hour', () => {
  let host: TestHost
  let screen: TestScreen
  let carId: CarId
  const entryId = entryIdSchema.parse('entry-one')
  const start = firstMorning + HOUR
  beforeAll(async () => {
    host = await createTestHost()
    screen = await host.openScreen()
    await screen.signIn(manager)
    carId = host.workshop.addCar()
    host.workshop.now = start
    const clock = {
      entryId,
      personId: welder,
      on: { kind: 'workshop' as const, what: 'sweeping' },
      hotWork: false,
      cause: null,
    }
    await screen.run('startClock', clock, { by: welder })
    host.workshop.now = start - HOUR
  })
  afterAll(() => host.close())

  test('facts keep their order: new ones get the time of the last until the clock has caught up', async () => {
    for (const text of ['One.', 'Two.', 'Three.']) await screen.run('addNote', { text }, { carId })
    const facts = factsSince(host.workshop.db, 0)
    const recorded = facts.map((fact) => Date.parse(fact.recorded))
    expect(recorded).toEqual(recorded.toSorted((a, b) => a - b))
    expect(recorded.slice(-3)).toEqual([start, start, start])
  })

  test('screens warn', async () => {
    expect((await screen.client.workshop.query()).clock).toMatch(
      /clock is behind the last fact.*Set the clock right/,
    )
  })

  test('a running clock cannot be stopped before it began, which is said, and runs on', async () => {
    const stop = { entryId, overtime: false, shares: null }
    expect(await screen.send('stopClock', stop, { by: welder })).toMatchObject({
      ok: false,
      refusal: { message: 'The clock would end before it starts.', next: 'Give a time after its start.' },
    })
    host.workshop.now = start + HOUR
    await screen.run('stopClock', stop, { by: welder })
    const stopped = factsSince(host.workshop.db, 0).at(-1)
    expect(stopped).toMatchObject({ kind: 'clockStopped' })
    expect((await screen.client.workshop.query()).clock).toBe(null)
  })

  test('a session lasts no longer for it', async () => {
    await screen.signIn(manager)
    host.workshop.now -= HOUR
    expect((await screen.client.session.query()).signedIn).not.toBe(null)
    host.workshop.now += 31 * MINUTE
    expect((await screen.client.session.query()).signedIn).toBe(null)
    host.workshop.now += 29 * MINUTE
  })
})

describe('a clock that was a year ahead', () => {
  const wrongCode = (db: ReturnType<typeof createWorkshop>['db'], now: number) =>
    verifyCode(db, { personId: welder, device: desk, code: '0000', now })

  test('locks nobody out for a year once it is right again', async () => {
    const { db, now } = createWorkshop()
    for (let wrong = 0; wrong < 5; wrong += 1) await wrongCode(db, now + YEAR)
    const right = (at: number) => verifyCode(db, { personId: welder, device: desk, code: '2718', now: at })
    expect(await right(now)).toMatchObject({
      ok: false,
      refusal: { code: 'locked', next: expect.stringContaining('in a minute') as string },
    })
    expect(await right(now + MINUTE)).toMatchObject({ ok: true })
  })

  test('leaves no pairing code that lets devices in for a year, and no year of waiting', async () => {
    let now = firstMorning + YEAR
    const codes = createPairingCodes(() => now)
    const { text } = await codes.make()
    expect(await codes.use('00000000', '192.168.1.7', 'Tablet')).toMatchObject({ ok: false })
    now = firstMorning
    expect(codes.state()).toMatchObject({ is: 'over' })
    expect(await codes.use(text, '192.168.1.8', 'Phone')).toMatchObject({ ok: false })
    expect(await codes.use(text, '192.168.1.7', 'Tablet')).toMatchObject({ refusal: { code: 'locked' } })
    now += 1_001
    expect(await codes.use(text, '192.168.1.7', 'Tablet')).toMatchObject({
      refusal: { message: 'This code has run out: it lasts five minutes.' },
    })
  })

  test('counts a clock that ran over it to the end of its day, not a year', () => {
    const workshop = createWorkshop()
    const entryId = entryIdSchema.parse('entry-one')
    workshop.run(
      'startClock',
      { entryId, personId: welder, on: { kind: 'workshop', what: 'sweeping' }, hotWork: false, cause: null },
      { by: welder },
    )
    workshop.now += YEAR
    workshop.run('stopClock', { entryId, overtime: false, shares: null }, { by: welder })
    expect(factsSince(workshop.db, 0).at(-1)).toMatchObject({
      kind: 'clockStopped',
      payload: { countsTo: '2026-11-23T16:30:00+01:00' },
    })
  })

  test('prepares no weeks to come, warns, and prepares the right one once it is right again', async () => {
    const host = await createTestHost()
    const screen = await host.openScreen()
    const { workshop } = host
    const weekly = { weekday: 1, time: '09:00' }
    workshop.run('setReports', { ...usualReports, weekly })
    workshop.now += YEAR
    await host.tick()
    expect(readSetting(workshop.db, 'reportsPrepared')).toBe(null)
    expect((await screen.client.workshop.query()).clock).toMatch(/Check this computer's date/)
    workshop.now = firstMorning + 2 * HOUR
    await host.tick()
    expect(Number(readSetting(workshop.db, 'reportsPrepared'))).toBe(firstMorning + HOUR)
    await host.close()
  })

  test('by two weeks, which nobody can tell from holidays, does not keep the next weeks from being prepared', async () => {
    const host = await createTestHost()
    const { workshop } = host
    workshop.run('setReports', { ...usualReports, weekly: { weekday: 1, time: '09:00' } })
    workshop.now = firstMorning + 14 * DAY + 2 * HOUR
    await host.tick()
    expect(Number(readSetting(workshop.db, 'reportsPrepared'))).toBe(firstMorning + 14 * DAY + HOUR)
    workshop.now = firstMorning + 2 * HOUR
    await host.tick()
    expect(Number(readSetting(workshop.db, 'reportsPrepared'))).toBe(firstMorning + HOUR)
    await host.close()
  })
})
