import { existsSync } from 'node:fs'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { isClean } from '../../../db/check-finding.ts'
import { checkDatabase } from '../../../db/check.ts'
import { photosFolder, takingInFolder } from '../../../db/data-paths.ts'
import { openPhotoReader } from '../../../db/photos/photo-store.ts'
import { pairDevice } from '../../../db/devices.ts'
import { carIdSchema, deviceIdSchema } from '../../../domain/ids.ts'
import { everyAnswer } from '../../support/every-view.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { tellEverything } from '../../support/whole.ts'
import { codes, manager } from '../../support/workshop.ts'

let first: TestHost
let here: TestHost
let screens: readonly [TestScreen, TestScreen]
let archive: Uint8Array<ArrayBuffer>

/** A workshop with everything in it, as its archive, and a host on its first run. */
beforeAll(async () => {
  first = await createTestHost()
  await tellEverything(first)
  here = await createTestHost({ setUp: false, now: first.workshop.now })
  screens = [await first.openScreen(), await here.openScreen()]
  await screens[0].signIn(manager)
  archive = new Uint8Array(await (await screens[0].request('/whole-workshop.zip')).arrayBuffer())
})
afterAll(async () => {
  await first.close()
  await here.close()
})

const send = (screen: TestScreen, body: Uint8Array<ArrayBuffer>) =>
  screen.request('/whole-workshop', { method: 'PUT', body })
const leftovers = () => existsSync(takingInFolder(here.workshop.dataDir!))

test('a broken archive is refused in words, and the first run goes on', async () => {
  const cut = await send(screens[1], archive.slice(0, archive.length - 900))
  expect(cut.status).toBe(422)
  expect(await cut.json()).toMatchObject({ refusal: { message: expect.stringContaining('.zip') } })
  expect((await send(screens[1], new Uint8Array())).status).toBe(422)
  expect(await screens[1].client.session.query()).toMatchObject({ setUp: false, revision: 0 })
  expect([leftovers(), await screens[1].client.takingIn.query()]).toEqual([false, null])
})

test('another screen than the host’s own takes none in', async () => {
  const id = deviceIdSchema.parse('device-in-the-yard')
  const { token } = pairDevice(here.workshop.db, { id, name: 'Tablet' }, here.workshop.now)
  const headers = { cookie: `panelwright-test=${token}`, origin: `http://${here.authority}` }
  const put = { method: 'PUT', headers, body: archive }
  const answer = await here.handler(new Request(`http://${here.authority}/whole-workshop`, put))
  expect(await answer.json()).toMatchObject({ refusal: { code: 'not-allowed' } })
})

test('on its first run a host takes a whole workshop in and shows the same in every view', async () => {
  const taken = await send(screens[1], archive)
  expect(await taken.json()).toEqual({ name: 'Brookside Metalwork' })
  expect(leftovers()).toBe(false)
  expect(await screens[1].client.session.query()).toMatchObject({ setUp: true, hasManagerCode: false })
  await screens[1].run(
    'setCode',
    { personId: manager, newCode: codes[manager]! },
    { code: null, id: 'code-anew' },
  )
  await screens[1].signIn(manager)
  const [shown, shownHere] = [
    await everyAnswer(screens[0], first.workshop.db),
    await everyAnswer(screens[1], here.workshop.db),
  ]
  expect([...shownHere.keys()]).toEqual([...shown.keys()])
  // These name what belongs to a computer: its devices, and its last taking out.
  const own = ['session undefined', 'devices undefined', 'wholeWorkshop undefined']
  for (const [asked, answer] of shown)
    if (!own.includes(asked)) expect(shownHere.get(asked), asked).toEqual(answer)
})

test('what was taken in passes the check, and new facts follow the old ones', async () => {
  const { db, dataDir } = here.workshop
  const carId = carIdSchema.parse('car-s-101')
  const check = () => checkDatabase(db, openPhotoReader(photosFolder(dataDir!)))
  expect(isClean(await check())).toBe(true)
  const added = await screens[1].run('addNote', { text: 'Here now.' }, { carId, id: 'a-note' })
  expect(added.numbers).toEqual([added.revision])
  expect(isClean(await check())).toBe(true)
})

test('where a workshop is, none is taken in', async () => {
  const again = await send(screens[1], archive)
  expect(await again.json()).toMatchObject({ refusal: { code: 'already' } })
})
