import { afterEach, beforeEach, expect, test } from 'vitest'
import { pairDevice } from '../../../db/devices.ts'
import { deviceIdSchema } from '../../../domain/ids.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager, welder } from '../../support/workshop.ts'

let host: TestHost
let screen: TestScreen
/** A workshop as it stands after it was taken in: people, and codes of none of them. */
beforeEach(async () => {
  host = await createTestHost()
  host.workshop.db.writer.sqlite.exec('DELETE FROM code')
  screen = await host.openScreen()
})
afterEach(() => host.close())

const choose = (by: typeof manager, personId = by, newCode = '271828') =>
  screen.send('setCode', { personId, newCode }, { by, code: null })

test("in the host's own window a manager chooses the first code of a workshop that was taken in, once", async () => {
  expect(await screen.client.session.query()).toMatchObject({ hasManagerCode: false, isHostsOwn: true })
  expect(await choose(manager)).toMatchObject({ ok: true, numbers: [] })
  expect(await screen.client.session.query()).toMatchObject({ hasManagerCode: true })
  expect(await choose(manager, manager, '161803')).toMatchObject({
    ok: false,
    refusal: { code: 'wrong-code' },
  })
  const signedIn = await screen.client.signIn.mutate({ personId: manager, code: '271828' })
  expect(signedIn).toEqual({ ok: true, personId: manager })
})

test('the first code has the length that a manager needs', async () => {
  expect(await choose(manager, manager, '2718')).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
})

test('a technician chooses none so, neither for themselves nor for a manager', async () => {
  for (const personId of [welder, manager])
    expect(await choose(welder, personId)).toMatchObject({ ok: false, refusal: { code: 'wrong-code' } })
})

test('a manager so chooses no code for somebody else', async () => {
  expect(await choose(manager, welder)).toMatchObject({ ok: false, refusal: { code: 'wrong-code' } })
})

test('another screen than the host’s own chooses none', async () => {
  const id = deviceIdSchema.parse('device-in-the-yard')
  const { token } = pairDevice(host.workshop.db, { id, name: 'Tablet' }, host.workshop.now)
  const command = host.workshop.command('setCode', { personId: manager, newCode: '271828' })
  const answer = await host.handler(
    new Request(`http://${host.authority}/trpc/command`, {
      method: 'POST',
      headers: {
        cookie: `panelwright-test=${token}`,
        origin: `http://${host.authority}`,
        'content-type': 'application/json',
      },
      body: JSON.stringify(command),
    }),
  )
  expect(await answer.json()).toMatchObject({
    result: { data: { ok: false, refusal: { code: 'wrong-code' } } },
  })
})
