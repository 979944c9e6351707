import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest'
import { lastNumber } from '../../../db/journal.ts'
import { carIdSchema, visitIdSchema } from '../../../domain/ids.ts'
import { valueOf } from '../../support/copies.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { pairWith } from '../../support/pair.ts'
import { folderForFile } from '../../support/whole.ts'
import { codes, dippingFirm, manager, owner } from '../../support/workshop.ts'

const { folder, remove } = folderForFile()
const disk = join(folder, 'disk')
const HOUR = 3_600_000
const SOON = { timeout: 30_000, interval: 20 }
let host: TestHost
/** The host's own window, where a manager is signed in. */
let window: TestScreen
beforeAll(async () => {
  host = await createTestHost()
  host.workshop.addCar()
  window = await host.openScreen()
  await window.signIn(manager)
  mkdirSync(disk)
})
afterAll(async () => {
  await host.close()
  remove()
})

/** A session ends after half an hour without use. */
const later = (ms: number) => {
  host.workshop.now += ms
  return window.signIn(manager)
}
const state = () => window.client.copies.query()
const settled = () =>
  vi.waitFor(async () => expect((await state()).doing.kind).toBe('nothing'), { ...SOON, timeout: 60_000 })
const daily = {
  folder: disk,
  schedule: { every: 'day', time: '18:00' },
  warnAfterDays: 2,
  passphrase: null,
} as const

describe('copies in the window', () => {
  test('there is a warning while there is none, for managers and on the host’s own window alone', async () => {
    const code = await window.client.pairingCode.mutate()
    const tablet = await pairWith(host, { code: code.ok ? code.text : '', name: 'Tablet' })
    expect(await tablet.client.copiesWarning.query()).toBeNull()
    expect((await window.client.copiesWarning.query())?.message).toContain(
      'There is no copy of this workshop yet',
    )
    await tablet.signIn(manager)
    expect(await tablet.client.copiesWarning.query()).not.toBeNull()
    // A folder of the computer is named where one sits at it.
    expect(await tablet.client.setCopies.mutate(daily)).toMatchObject({
      ok: false,
      refusal: { code: 'not-allowed' },
    })
  })

  test('a copy is made where one is set, told to every screen, and the warning ends', async () => {
    expect(await window.client.makeCopy.mutate()).toMatchObject({ ok: false, refusal: { code: 'not-now' } })
    valueOf(await window.client.setCopies.mutate(daily))
    valueOf(await window.client.makeCopy.mutate())
    await settled()
    const { record, warning } = await state()
    expect(record.tried?.problem).toBeNull()
    expect(record.good).toMatchObject({ folder: disk, number: lastNumber(host.workshop.db) })
    expect(warning).toBeNull()
    expect((await window.client.session.query()).copiedTo).toBe(record.good?.number)
    const [copy] = valueOf(await window.client.copiesThere.query())
    expect(copy).toMatchObject({ isWhole: true, content: { workshop: 'Brookside Metalwork', cars: 1 } })

    valueOf(await window.client.verifyCopy.mutate({ stamp: copy!.stamp, passphrase: null }))
    await settled()
    expect((await state()).verified).toEqual({ made: copy!.made, problem: null })
  })

  test('one that is stopped leaves everything as it was, and is no failure', async () => {
    const before = await state()
    valueOf(await window.client.makeCopy.mutate())
    valueOf(await window.client.stopCopy.mutate())
    await settled()
    expect((await state()).record).toEqual(before.record)
    expect(valueOf(await window.client.copiesThere.query())).toHaveLength(1)
  })

  test('the next one is made by itself at the set time; where its disk is away that is told, and tried again', async () => {
    const before = (await state()).record.good!
    await host.tick()
    expect((await state()).doing.kind).toBe('nothing')

    renameSync(disk, join(folder, 'drawer'))
    await later(24 * HOUR)
    await host.tick()
    await settled()
    expect((await state()).record).toMatchObject({
      good: before,
      tried: { problem: expect.stringMatching(/There is no folder .* Attach its disk/) },
    })

    renameSync(join(folder, 'drawer'), disk)
    await host.tick()
    expect((await state()).doing.kind).toBe('nothing')
    await later(HOUR)
    await host.tick()
    await settled()
    const { record } = await state()
    expect(record.tried?.problem).toBeNull()
    expect(record.good?.at).toBe(host.workshop.now)
    expect(valueOf(await window.client.copiesThere.query())).toHaveLength(2)
  })

  test('it is warned of again once the last good one is older than was set', async () => {
    await later(3 * 24 * HOUR)
    expect((await window.client.copiesWarning.query())?.message).toBe(
      'The last good copy of this workshop is 3 days old.',
    )
  })

  test('a folder that cannot hold copies is refused in words', async () => {
    const set = (asked: Partial<Parameters<TestScreen['client']['setCopies']['mutate']>[0]>) =>
      window.client.setCopies.mutate({ ...daily, ...asked })
    expect(await set({ folder: 'copies' })).toMatchObject({ ok: false, refusal: { code: 'bad-input' } })
    expect(await set({ folder: host.workshop.dataDir! })).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input' },
    })
    expect(await set({ folder: join(folder, 'gone') })).toMatchObject({
      ok: false,
      refusal: { code: 'storage' },
    })
    expect(await set({ passphrase: { kind: 'as before' } })).toMatchObject({
      ok: false,
      refusal: { code: 'bad-input' },
    })
  })
})

describe('a contact that a manager erases', () => {
  const erasedIn = () =>
    readdirSync(join(disk, 'panelwright-copies'))
      .map((name) => join(disk, 'panelwright-copies', name, 'erased.json'))
      .filter((path) => existsSync(path))
      .flatMap(
        (path) => (JSON.parse(readFileSync(path, 'utf8')) as { readonly erased: readonly object[] }).erased,
      )

  test('is told beforehand what stays, and is refused while the car is in work', async () => {
    expect(await window.client.erasing.query({ id: owner })).toMatchObject({
      refusal: { code: 'not-now' },
      cars: ['Larkspur 4'],
      reports: 0,
      typed: 0,
    })
    const on = { carId: carIdSchema.parse('car-s-101') }
    await window.run('addNote', { text: 'R. Okafor wants the old wing back.' }, on)
    for (const status of ['finished', 'delivered'] as const)
      await window.run(
        'setVisitStatus',
        { visitId: visitIdSchema.parse('visit-s-101'), status, reason: '' },
        on,
      )
    expect(await window.client.erasing.query({ id: owner })).toMatchObject({ refusal: null, typed: 1 })
    // Asking has erased nothing.
    expect(await window.client.erased.query()).toEqual([])
  })

  test('is in the list beside the copies at once; where its disk is away that is told, and made up for', async () => {
    await window.run('eraseContact', { id: owner }, { code: codes[manager]! })
    await vi.waitFor(() => expect(erasedIn()).toHaveLength(1), SOON)
    expect(await window.client.erased.query()).toEqual([{ id: owner, kind: 'owner', at: host.workshop.now }])
    expect((await state()).unlisted).toBeNull()

    renameSync(disk, join(folder, 'drawer'))
    await window.run('eraseContact', { id: dippingFirm }, { code: codes[manager]! })
    await vi.waitFor(async () => expect((await state()).unlisted).toContain('Attach the disk'), SOON)
    renameSync(join(folder, 'drawer'), disk)
    await host.tick()
    expect((await state()).unlisted).toBeNull()
    expect(erasedIn()).toHaveLength(2)
    expect((await window.client.workshop.query()).parties.map(({ name }) => name)).toEqual(['Harbour Mutual'])
    await settled()
  })
})

test('a copy of an earlier passphrase is named as one, and verified with that passphrase', async () => {
  const set = async (passphrase: string) =>
    valueOf(await window.client.setCopies.mutate({ ...daily, schedule: null, passphrase }))
  await set('the first of two passphrases')
  host.workshop.now += 10_000
  valueOf(await window.client.makeCopy.mutate())
  await settled()
  const listed = async () =>
    valueOf(await window.client.copiesThere.query()).map((copy) => [copy.isSealed, copy.needsPassphrase])
  expect((await listed()).slice(0, 2)).toEqual([
    [true, false],
    [false, false],
  ])
  await set('the second of two passphrases')
  expect((await listed()).slice(0, 2)).toEqual([
    [true, true],
    [false, false],
  ])
  const [earlier] = valueOf(await window.client.copiesThere.query())
  const typed = { stamp: earlier!.stamp, passphrase: 'the first of two passphrases' }
  valueOf(await window.client.verifyCopy.mutate(typed))
  await settled()
  expect((await state()).verified?.problem).toBeNull()

  const code = await window.client.pairingCode.mutate()
  const tablet = await pairWith(host, { code: code.ok ? code.text : '', name: 'Tablet 2' })
  await tablet.signIn(manager)
  expect(await tablet.client.verifyCopy.mutate(typed)).toMatchObject({ refusal: { code: 'not-allowed' } })
})

test('on its first run a host restores a copy, and a manager chooses a code; with a workshop it does not', async () => {
  const empty = await createTestHost({ setUp: false })
  const screen = await empty.openScreen()
  const epoch = (await screen.client.session.query()).epoch
  expect(await screen.client.copiesIn.query({ folder: join(folder, 'nothing') })).toMatchObject({ ok: false })
  const [found] = valueOf(await screen.client.copiesIn.query({ folder: disk }))
  const { stamp } = found!.copies.find(({ isSealed }) => !isSealed)!
  const asked = { folder: found!.folder, stamp, passphrase: null }
  expect(valueOf(await screen.client.restoreCopy.mutate(asked))).toBe('Brookside Metalwork')
  const session = await screen.client.session.query()
  expect(session).toMatchObject({ setUp: true, hasManagerCode: false, copiedTo: null })
  expect(session.epoch).not.toBe(epoch)
  expect(await screen.client.restoreCopy.mutate(asked)).toMatchObject({
    ok: false,
    refusal: { code: 'already' },
  })
  const code = { personId: manager, newCode: codes[manager]! }
  await screen.run('setCode', code, { code: null, id: 'code-anew' })
  await screen.signIn(manager)
  // Where copies went is of the computer that was lost.
  const { set, restored } = await screen.client.copies.query()
  expect(set).toBeNull()
  expect(restored?.notes).toEqual([expect.stringContaining('a later copy cannot be read')])
  valueOf(await screen.client.restoreRead.mutate())
  expect((await screen.client.copies.query()).restored).toBeNull()
  await empty.close()
})
