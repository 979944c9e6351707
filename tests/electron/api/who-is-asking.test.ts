import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { personIdSchema } from '../../../domain/ids.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager, painter, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
beforeAll(async () => {
  host = await createTestHost()
})
afterAll(() => host.close())
beforeEach(async () => {
  screen = await host.openScreen()
})
afterEach(() => {
  if (host.log.length > 0) throw new Error(`The host reported a defect: ${host.log.join('\n')}`)
})

const code = async (answer: Promise<{ readonly ok: boolean }>) => {
  const answered = (await answer) as Awaited<ReturnType<TestScreen['send']>>
  return answered.ok ? 'accepted' : answered.refusal.code
}

describe('a command', () => {
  test('issueReport comes from the host alone', async () => {
    await screen.signIn(manager)
    expect(await code(screen.send('issueReport', {} as CommandPayload<'issueReport'>))).toBe('not-allowed')
  })

  test('that cannot be read is refused as a value, and nothing else happens', async () => {
    for (const input of [null, 'passGate', {}, { id: 'x' }, { kind: 'dropTables' }]) {
      const answer = await screen.client.command.mutate(input as never)
      expect(answer).toMatchObject({
        ok: false,
        refusal: { code: 'bad-input', next: expect.stringMatching(/\S/) },
      })
    }
  })

  test('with a second signature needs the right code of another person', async () => {
    const carId = host.workshop.addCar('Larkspur 4', 'S-2ND')
    const note = { text: 'seen' }
    const send = async (by: typeof welder, secondCode: string) => {
      const command = host.workshop.command('addNote', note, { carId, by: welder })
      return code(screen.client.command.mutate({ ...command, second: { by, code: secondCode } }))
    }
    expect(await send(welder, '2718')).toBe('not-allowed')
    expect(await send(painter, '9999')).toBe('wrong-code')
    expect(await send(painter, '1618')).toBe('accepted')
  })

  test('sent again is harmless; its id with other content or by another person is refused', async () => {
    const carId = host.workshop.addCar('Larkspur 4', 'S-REPEAT')
    const id = crypto.randomUUID()
    const first = await screen.run('addNote', { text: 'the first' }, { id, carId, by: welder })
    const again = await screen.run('addNote', { text: 'the first' }, { id, carId, by: welder })
    expect(again).toEqual(first)
    const other = await host.openScreen()
    expect(await code(other.send('addNote', { text: 'other' }, { id, carId, by: welder }))).toBe(
      'same-id-other-content',
    )
    expect(await code(other.send('addNote', { text: 'the first' }, { id, carId, by: painter }))).toBe(
      'same-id-other-content',
    )
    const record = await screen.client.record.query({ carId })
    expect(record.lines.filter((line) => line.kind === 'noted')).toHaveLength(1)
  })
})

describe('five wrong codes', () => {
  const attempt = (at: TestScreen, personId: typeof welder, digits: string) =>
    code(at.client.signIn.mutate({ personId, code: digits }))

  test('lock that person on that device, for a minute, then two; nobody else and nowhere else', async () => {
    const other = await host.openScreen()
    for (let wrong = 1; wrong < 5; wrong += 1)
      expect(await attempt(screen, welder, '0000')).toBe('wrong-code')
    expect(await attempt(screen, welder, '0000')).toBe('locked')
    expect(await attempt(screen, welder, '2718')).toBe('locked')
    // A signature with the code is locked as well as signing in.
    expect(await code(screen.send('addNote', { text: 'x' }, { by: welder, code: '2718' }))).toBe('locked')
    expect(await attempt(screen, painter, '1618')).toBe('accepted')
    expect(await attempt(other, welder, '2718')).toBe('accepted')

    host.workshop.pass({ minutes: 1 })
    for (let wrong = 1; wrong < 5; wrong += 1)
      expect(await attempt(screen, welder, '0000')).toBe('wrong-code')
    expect(await attempt(screen, welder, '0000')).toBe('locked')
    host.workshop.pass({ minutes: 1 })
    expect(await attempt(screen, welder, '2718')).toBe('locked')
    host.workshop.pass({ minutes: 1 })
    expect(await attempt(screen, welder, '2718')).toBe('accepted')
  })
})

describe('a session', () => {
  const signedIn = async () => (await screen.client.session.query()).signedIn

  test('begins with the code and ends when the person leaves', async () => {
    expect(await signedIn()).toBeNull()
    await screen.signIn(manager)
    expect(await signedIn()).toBe(manager)
    await screen.client.signOut.mutate()
    expect(await signedIn()).toBeNull()
  })

  test('does not begin with a wrong code or for a stranger', async () => {
    expect(await code(screen.client.signIn.mutate({ personId: manager, code: '000000' }))).toBe('wrong-code')
    const stranger = personIdSchema.parse('person-stranger')
    expect(await code(screen.client.signIn.mutate({ personId: stranger, code: '000000' }))).toBe('unknown')
    expect(await signedIn()).toBeNull()
  })

  test('ends after 30 minutes without a deed; reading alone does not hold it', async () => {
    await screen.signIn(manager)
    host.workshop.pass({ minutes: 29 })
    await screen.send('setCalendar', { week: [[], [], [], [], [], [], []], holidays: [] })
    host.workshop.pass({ minutes: 29 })
    expect(await signedIn()).toBe(manager)
    host.workshop.pass({ minutes: 2 })
    expect(await signedIn()).toBeNull()
    expect(await code(screen.send('setCalendar', { week: [[], [], [], [], [], [], []], holidays: [] }))).toBe(
      'not-allowed',
    )
  })

  test('shows contacts to its manager and to nobody else', async () => {
    const shown = async () => (await screen.client.workshop.query()).parties.map((party) => party.contact)
    expect(await shown()).toEqual([null, null, null])
    await screen.signIn(welder)
    expect(await shown()).toEqual([null, null, null])
    await screen.signIn(manager)
    expect(await shown()).not.toContain(null)
  })
})

describe('the first set-up', () => {
  const workshop = {
    name: 'Fell Lane Bodyworks',
    zone: 'Europe/Berlin',
    currency: 'EUR',
    managerId: manager,
    manager: { name: 'Mara Lindqvist', phone: '', email: '' as const, address: '' },
    code: '314159',
    skills: ['metalwork'],
    withCatalogue: true,
  }

  test('is done from the host’s own screen, once, and signs its manager in there', async () => {
    const fresh = await createTestHost({ setUp: false })
    try {
      const own = await fresh.openScreen()
      expect(await own.client.session.query()).toMatchObject({ setUp: false, isHostsOwn: true, people: [] })
      await own.run('setUpWorkshop', workshop, { by: null })
      const session = await own.client.session.query()
      expect(session).toMatchObject({ setUp: true, workshop: 'Fell Lane Bodyworks', signedIn: manager })
      expect(session.people).toMatchObject([{ name: 'Mara Lindqvist', active: true }])
      expect((await own.client.catalogue.query()).types.length).toBeGreaterThanOrEqual(15)
      expect(await code(own.send('setUpWorkshop', workshop, { by: null }))).toBe('already')
    } finally {
      await fresh.close()
    }
  })
})
