import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test } from 'vitest'
import type { Command } from '../../domain/commands/command-shapes.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createOutbox, type Outbox, type OutboxPorts } from '../../renderer/outbox/create-outbox.ts'
import type { CommandAnswer } from '../../renderer/outbox/outcome.ts'
import { createKept, type Kept } from '../../renderer/outbox/kept.ts'
import type { NewPhoto } from '../../renderer/outbox/photo-queue.ts'
import { Away, command, photo } from '../support/outbox-host.ts'

/** Real IndexedDB code over an in-memory store; the host is a list of what arrived and a switch for the network. */
const refusal: Refusal = { code: 'clash', message: 'Bay 3 is taken.', next: 'Choose another bay.' }
const digest = 'a'.repeat(64)

let store = 0
let kept: Kept
let isAway = false
let arrived: Command[] = []
let uploads: string[] = []
let answers: (command: Command) => CommandAnswer
let outbox: Outbox

const ports = (): OutboxPorts => ({
  kept,
  post: async (command) => {
    if (isAway) throw new Away()
    arrived.push(command)
    return answers(command)
  },
  upload: async (photo, onProgress) => {
    if (isAway) throw new Away()
    onProgress(1)
    uploads.push(await photo.text())
    return { ok: true, value: { sha256: digest, width: 4, height: 3, taken: null } }
  },
  isAway: (error) => error instanceof Away,
  onAccepted: () => Promise.resolve(),
})

beforeEach(() => {
  kept = createKept(`outbox-${(store += 1)}`)
  isAway = false
  arrived = []
  uploads = []
  answers = () => ({ ok: true, revision: 7, numbers: [7] })
  outbox = createOutbox(ports())
})

const idsThatArrived = () => arrived.map(({ id }) => id as string)

describe('a command', () => {
  test('is sent once, answered, and then no longer kept', async () => {
    expect(await outbox.send(command('note-1'))).toEqual({ is: 'done', revision: 7, numbers: [7] })
    expect(idsThatArrived()).toEqual(['note-1'])
    expect(await kept.commands()).toEqual([])
  })

  test('stays on the device while the host is away, and goes out in order when it is back', async () => {
    isAway = true
    expect(await outbox.send(command('note-1'))).toEqual({ is: 'kept' })
    expect(await outbox.send(command('note-2'))).toEqual({ is: 'kept' })
    expect(outbox.state()).toMatchObject({ away: true, waiting: 2 })
    isAway = false
    await outbox.flush()
    expect(idsThatArrived()).toEqual(['note-1', 'note-2'])
    expect(outbox.state()).toMatchObject({ away: false, waiting: 0 })
  })

  test('survives a reload of the page', async () => {
    isAway = true
    await outbox.send(command('note-1'))
    isAway = false
    await createOutbox(ports()).flush()
    expect(idsThatArrived()).toEqual(['note-1'])
  })

  test('that is refused to the face of the person is not kept', async () => {
    answers = () => ({ ok: false, refusal })
    expect(await outbox.send(command('note-1'))).toEqual({ is: 'refused', refusal })
    expect(await kept.commands()).toEqual([])
  })

  test('that is refused later is shown until it is read, and never sent again', async () => {
    isAway = true
    await outbox.send(command('note-1'))
    isAway = false
    answers = () => ({ ok: false, refusal })
    await outbox.flush()
    await outbox.flush()
    expect(idsThatArrived()).toEqual(['note-1'])
    expect(outbox.state().refused).toMatchObject([{ command: { id: 'note-1' }, refusal }])
    await outbox.dismissCommand('note-1' as Command['id'])
    expect(outbox.state().refused).toEqual([])
  })

  test('waits for the ones before it', async () => {
    isAway = true
    await outbox.send(command('note-1'))
    isAway = false
    await outbox.send(command('note-2'))
    expect(idsThatArrived()).toEqual(['note-1', 'note-2'])
  })

  test('sent many at once arrives once each, in order', async () => {
    const outcomes = await Promise.all(['a-note', 'b-note', 'c-note'].map((id) => outbox.send(command(id))))
    expect(outcomes.map(({ is }) => is)).toEqual(['done', 'done', 'done'])
    expect(idsThatArrived()).toEqual(['a-note', 'b-note', 'c-note'])
  })

  test('whose answer cannot be understood is given back as refused, and the ones after it go on', async () => {
    answers = ({ id }) => {
      if (id === 'note-1') throw new SyntaxError('not JSON')
      return { ok: true, revision: 8, numbers: [8] }
    }
    expect(await outbox.send(command('note-1'))).toMatchObject({
      is: 'refused',
      refusal: { code: 'storage' },
    })
    expect(await outbox.send(command('note-2'))).toMatchObject({ is: 'done' })
  })
})

describe('a device whose store is broken', () => {
  const refuseAll = () => Promise.reject(new Error('The store is closed'))
  const brokenKept: Kept = {
    commands: refuseAll,
    putCommand: refuseAll,
    dropCommand: refuseAll,
    photos: refuseAll,
    commandSent: refuseAll,
    nextPhoto: refuseAll,
    photoIds: refuseAll,
    putPhoto: refuseAll,
    changePhoto: refuseAll,
    dropPhoto: refuseAll,
    photoSent: refuseAll,
    prepared: refuseAll,
    putPrepared: refuseAll,
    dropPrepared: refuseAll,
    sent: refuseAll,
    dropSent: refuseAll,
    epoch: refuseAll,
    startEpoch: refuseAll,
  }

  test('says so, and refuses what it cannot keep instead of losing it', async () => {
    const broken = createOutbox({ ...ports(), kept: brokenKept })
    expect(await broken.send(command('note-1'))).toMatchObject({
      is: 'refused',
      refusal: { code: 'storage' },
    })
    await broken.flush()
    expect(broken.state().broken).toMatchObject({ code: 'storage' })
  })

  test('still lets people sign', async () => {
    const broken = createOutbox({ ...ports(), kept: brokenKept })
    expect(await broken.send(command('gate-1', { code: '246810' }))).toMatchObject({ is: 'done' })
  })
})

describe('a command with a code in it', () => {
  const signed = (id: string) => command(id, { kind: 'passGate', code: '246810' })

  test('is sent like any other', async () => {
    expect(await outbox.send(signed('gate-1'))).toMatchObject({ is: 'done' })
  })

  test('is never stored on the device, whether the host is there or away', async () => {
    const stored: unknown[] = []
    const watching: Kept = { ...kept, putCommand: async (each) => void stored.push(each) }
    const watched = createOutbox({ ...ports(), kept: watching })
    await watched.send(signed('gate-1'))
    isAway = true
    await watched.send(signed('gate-2'))
    await watched.send(command('gate-3', { second: { by: 'person-joss' as never, code: '135790' } }))
    expect(stored).toEqual([])
  })

  test('is given back as not signed when the host is away, and not sent by itself later', async () => {
    isAway = true
    expect(await outbox.send(signed('gate-1'))).toMatchObject({ is: 'refused', refusal: { code: 'not-now' } })
    isAway = false
    await outbox.flush()
    expect(arrived).toEqual([])
  })
})

describe('a photo', () => {
  test('is sent, attached with its own command id, and then no longer kept', async () => {
    expect(await outbox.addPhotos([photo('photo-1', 'bytes of one')])).toBeNull()
    await outbox.flush()
    expect(uploads).toEqual(['bytes of one'])
    expect(arrived).toMatchObject([
      { id: 'command-of-photo-1', kind: 'attachPhoto', payload: { attachmentId: 'photo-1', sha256: digest } },
    ])
    expect(await kept.photos()).toEqual([])
  })

  test('taken without a connection is sent when it is back, each once, in the order they were taken', async () => {
    isAway = true
    await outbox.addPhotos([photo('photo-1', 'one'), photo('photo-2', 'two')])
    await outbox.flush()
    expect(outbox.state().photos.map(({ state }) => state)).toEqual(['waiting', 'waiting'])
    isAway = false
    await outbox.flush()
    await outbox.flush()
    expect(uploads).toEqual(['one', 'two'])
    expect(outbox.state().photos).toEqual([])
  })

  test('that the host refuses stays to be seen, tried again or left out, and lets the others pass', async () => {
    const picky = createOutbox({
      ...ports(),
      upload: async (each) =>
        (await each.text()) === 'no photo'
          ? { ok: false, refusal: { ...refusal, code: 'photo' } }
          : { ok: true, value: { sha256: digest, width: 4, height: 3, taken: null } },
    })
    await picky.addPhotos([photo('photo-1', 'no photo'), photo('photo-2', 'two')])
    await picky.flush()
    expect(picky.state().photos).toMatchObject([{ attachmentId: 'photo-1', state: 'refused' }])
    expect(arrived).toHaveLength(1)
    await picky.dismissPhoto('photo-1' as NewPhoto['attachmentId'])
    expect(picky.state().photos).toEqual([])
  })

  test('of which the device cannot keep the bytes is said so, not lost in silence', async () => {
    const full: Kept = { ...kept, putPhoto: () => Promise.reject(new Error('QuotaExceededError')) }
    const outcome = await createOutbox({ ...ports(), kept: full }).addPhotos([photo('photo-1', 'one')])
    expect(outcome).toMatchObject({ code: 'storage' })
  })
})
