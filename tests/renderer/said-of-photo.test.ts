import 'fake-indexeddb/auto'
import { beforeEach, expect, test } from 'vitest'
import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import { attachmentIdSchema, carIdSchema, commandIdSchema, personIdSchema } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { createOutbox, type Outbox } from '../../renderer/outbox/create-outbox.ts'
import { createKept } from '../../renderer/outbox/kept.ts'
import { waitingChange } from '../../renderer/outbox/waiting-change.ts'

const id = attachmentIdSchema.parse('photo-of-hole')
const carId = carIdSchema.parse('car-0001')
const by = personIdSchema.parse('person-wren')
const made = '2026-11-25T10:40:00+00:00'
const marks = [{ kind: 'arrow', from: { x: 0.1, y: 0.1 }, to: { x: 0.4, y: 0.4 } }] as const
const full: Refusal = { code: 'storage', message: 'The disk is full.', next: 'Free some space.' }

/** Real IndexedDB code over an in-memory store; the host is a list of what arrived. */
class Away extends Error {}
let store = 0
let isAway = true
let refusal: Refusal | null = null
let arrived: string[] = []
let outbox: Outbox

beforeEach(() => {
  isAway = true
  refusal = null
  arrived = []
  outbox = createOutbox({
    kept: createKept(`said-${(store += 1)}`),
    post: (command) => {
      if (isAway) throw new Away()
      arrived.push(command.kind)
      return Promise.resolve({ ok: true, revision: arrived.length, numbers: [arrived.length] })
    },
    upload: () => {
      if (isAway) throw new Away()
      if (refusal !== null) return Promise.resolve({ ok: false, refusal })
      return Promise.resolve({
        ok: true,
        value: { sha256: 'a'.repeat(64), width: 4, height: 3, taken: null },
      })
    },
    isAway: (error) => error instanceof Away,
    onAccepted: () => Promise.resolve(),
  })
})

const say = <K extends CommandKind>(name: string, kind: K, payload: CommandPayload<K>) => {
  const command: Command = {
    id: commandIdSchema.parse(name),
    kind,
    carId,
    seen: null,
    by,
    code: null,
    second: null,
    happened: null,
    made,
    payload,
  }
  return outbox.send(command)
}

async function takeAndSay(): Promise<void> {
  await outbox.addPhotos([
    {
      attachmentId: id,
      commandId: commandIdSchema.parse('attach-the-hole'),
      carId,
      by,
      made,
      name: 'hole.jpg',
      caption: '',
      serves: [{ what: 'car' }],
      bytes: new Blob(['hole']),
    },
  ])
  await say('first-words', 'setCaption', { attachmentId: id, caption: 'Hole' })
  await say('marks-on-it', 'markPhoto', { attachmentId: id, marks: [...marks] })
  await say('better-words', 'setCaption', { attachmentId: id, caption: 'Hole behind the bracket' })
}

test('what is said of a photo that waits is shown before it is sent, the last words counting', async () => {
  await takeAndSay()
  const { commands } = outbox.state()
  expect(waitingChange(commands, id)).toEqual({ caption: 'Hole behind the bracket', marks })
  expect(waitingChange(commands, attachmentIdSchema.parse('photo-other'))).toEqual({})
})

test('it goes out after the photo, and nothing of it stays', async () => {
  await takeAndSay()
  isAway = false
  await outbox.flush()
  expect(arrived).toEqual(['attachPhoto', 'setCaption', 'markPhoto', 'setCaption'])
  expect(waitingChange(outbox.state().commands, id)).toEqual({})
})

test('it is not lost with a photo that is refused: it comes back with it, and goes out when that is tried again', async () => {
  await takeAndSay()
  isAway = false
  refusal = full
  await outbox.flush()
  expect(arrived).toEqual([])
  expect(outbox.state().photos).toMatchObject([{ attachmentId: id, refusal: full }])
  expect(outbox.state().refused.map(({ command }) => command.id)).toEqual([
    'first-words',
    'marks-on-it',
    'better-words',
  ])
  refusal = null
  await outbox.retryPhoto(id)
  expect(arrived).toEqual(['attachPhoto', 'setCaption', 'markPhoto', 'setCaption'])
})
