import 'fake-indexeddb/auto'
import { openDB } from 'idb'
import { beforeEach, describe, expect, test } from 'vitest'
import { createKept, type KeptPhoto, type SentThing } from '../../renderer/outbox/kept.ts'
import { createOutbox, type Outbox } from '../../renderer/outbox/create-outbox.ts'
import { oldestOf, whatMayGo } from '../../renderer/outbox/sent-rules.ts'
import { command, createHostStandIn, fresh, photo, type HostStandIn } from '../support/outbox-host.ts'

let host: HostStandIn
let outbox: Outbox

beforeEach(async () => {
  host = createHostStandIn()
  outbox = createOutbox(host.ports(fresh()))
  await outbox.obey({ epoch: 'first', copiedTo: null })
})

const numbersKept = async () =>
  (await host.kept.sent()).map(({ number }) => number).toSorted((one, other) => one - other)

async function sendTwo(): Promise<void> {
  await outbox.addPhotos([photo('photo-1', 'one')])
  await outbox.flush()
  await outbox.send(command('note-1'))
}

describe('what was sent', () => {
  test('stays on the device until a copy holds it', async () => {
    await sendTwo()
    expect(outbox.state()).toMatchObject({ waiting: 0, photos: [] })
    expect(await numbersKept()).toEqual([1, 2])
    await outbox.obey({ epoch: 'first', copiedTo: 1 })
    expect(await numbersKept()).toEqual([2])
    await outbox.obey({ epoch: 'first', copiedTo: 2 })
    expect(await numbersKept()).toEqual([])
  })

  test('goes out once more, in its old order and before what waits, when the host goes on from a copy', async () => {
    await sendTwo()
    host.isAway = true
    await outbox.send(command('note-2'))
    host.isAway = false
    host.arrived.length = 0
    expect(await outbox.obey({ epoch: 'second', copiedTo: 1 })).toBe(true)
    await outbox.flush()
    expect(host.uploads).toEqual(['one', 'one'])
    expect(host.idsThatArrived()).toContain('command-of-photo-1')
    expect(host.idsThatArrived().filter((id) => id.startsWith('note'))).toEqual(['note-1', 'note-2'])
    expect(await outbox.obey({ epoch: 'second', copiedTo: null })).toBe(false)
  })

  test('of a manager’s session does not stay, as it would be refused without one', async () => {
    await outbox.send(command('bay-1', { kind: 'addBay', carId: null }))
    expect(await host.kept.sent()).toEqual([])
  })

  test('makes room for a photo that finds none', async () => {
    await sendTwo()
    const store = host.kept
    const noRoom = Object.assign(new Error('No room.'), { name: 'QuotaExceededError' })
    const kept = {
      ...store,
      putPhoto: async (each: KeptPhoto) => {
        if ((await store.sent()).some(({ bytes }) => bytes > 0)) throw noRoom
        await store.putPhoto(each)
      },
    }
    host.isAway = true
    const tight = createOutbox(host.ports(kept))
    expect(await tight.addPhotos([photo('photo-2', 'two')])).toBeNull()
    expect((await kept.photos()).map(({ attachmentId }) => attachmentId as string)).toEqual(['photo-2'])
    // Nothing that was sent is left to go: what waits is never given up for it.
    kept.putPhoto = () => Promise.reject(noRoom)
    expect(await tight.addPhotos([photo('photo-3', 'three')])).toMatchObject({
      message: 'The space that this device gives to Panelwright is full.',
    })
    expect(await kept.photoIds()).toEqual(new Set(['photo-2']))
  })
})

describe('what may go', () => {
  const DAY_MS = 24 * 3_600_000
  const sent = (number: number, at: number, bytes: number): SentThing => ({
    in: bytes > 0 ? 'sentPhotos' : 'sentCommands',
    key: number,
    number,
    at,
    bytes,
  })
  const wide = { usage: 0, quota: 100e9 }
  const numbers = (things: readonly SentThing[]) => things.map(({ number }) => number)

  test('is what a copy holds, however new', () => {
    const things = [sent(1, 0, 5e6), sent(2, 0, 0), sent(3, 0, 5e6)]
    expect(numbers(whatMayGo(things, { copiedTo: 2, now: 0, space: wide }))).toEqual([1, 2])
  })

  test('is what is older than 14 days where there are no copies, and what is beyond 500 MB', () => {
    const old = [sent(1, 0, 0), sent(2, DAY_MS, 5e6)]
    expect(numbers(whatMayGo(old, { copiedTo: null, now: 14.5 * DAY_MS, space: wide }))).toEqual([1])
    const many = [sent(1, 1, 300e6), sent(2, 2, 300e6), sent(3, 3, 150e6)]
    expect(numbers(whatMayGo(many, { copiedTo: null, now: 4, space: wide }))).toEqual([1])
    expect(numbers(whatMayGo(many, { copiedTo: 0, now: 4, space: wide }))).toEqual([])
  })

  test('is the oldest photo first when more than four fifths of the space are used', () => {
    const things = [sent(1, 2, 10e6), sent(2, 1, 10e6), sent(3, 3, 0)]
    const space = { usage: 85e6, quota: 100e6 }
    expect(numbers(whatMayGo(things, { copiedTo: 0, now: 4, space }))).toEqual([2])
    expect(numbers(oldestOf(things, 11e6))).toEqual([2, 1])
  })
})

test('a store of the first version keeps what waits in it', async () => {
  const name = 'outbox-of-version-1'
  const old = await openDB(name, 1, {
    upgrade(database) {
      database.createObjectStore('commands', { autoIncrement: true }).createIndex('id', 'id')
      database
        .createObjectStore('photos', { autoIncrement: true })
        .createIndex('attachmentId', 'attachmentId')
    },
  })
  await old.put('commands', { id: 'note-1', command: command('note-1'), refusal: null })
  await old.put('photos', { ...photo('photo-1', 'one'), refusal: null })
  old.close()

  const kept = createKept(name)
  expect(await kept.commands()).toMatchObject([{ stated: '2026-11-25T10:40:00+00:00', refusedWith: null }])
  expect(await kept.prepared()).toEqual([])
  await createOutbox(host.ports(kept)).flush()
  expect(host.idsThatArrived().toSorted()).toEqual(['command-of-photo-1', 'note-1'])
  expect(host.uploads).toEqual(['one'])
  expect(host.arrived.map(({ happened }) => happened)).toEqual([
    '2026-11-25T10:40:00+00:00',
    '2026-11-25T10:40:00+00:00',
  ])
})
