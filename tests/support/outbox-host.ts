import type { Command } from '../../domain/commands/command-shapes.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { OutboxPorts } from '../../renderer/outbox/create-outbox.ts'
import { createKept, type Kept } from '../../renderer/outbox/kept.ts'
import type { NewPhoto } from '../../renderer/outbox/photo-queue.ts'

/** Stands in for the host of an outbox: a list of what arrived, a switch for the network and one for refusals. */
export interface HostStandIn {
  isAway: boolean
  refuse: (command: Command) => boolean
  refusePhotos: boolean
  /** The store of this test's device. */
  kept: Kept
  /** The journal's last number. */
  number: number
  readonly arrived: Command[]
  readonly uploads: string[]
  readonly refusal: Refusal
  /** Its clock, which stands still. */
  readonly now: string
  readonly idsThatArrived: () => readonly string[]
  readonly ports: (kept: Kept) => OutboxPorts
}

export class Away extends Error {}

let stores = 0

/** A store of its own. */
export const fresh = (): Kept => createKept(`outbox-host-${(stores += 1)}`)

export function createHostStandIn(): HostStandIn {
  const refusal: Refusal = { code: 'clash', message: 'Bay 3 is taken.', next: 'Choose another bay.' }
  const host: HostStandIn = {
    isAway: false,
    refuse: () => false,
    refusePhotos: false,
    kept: fresh(),
    number: 0,
    arrived: [],
    uploads: [],
    refusal,
    now: '2026-11-25T10:42:00+00:00',
    idsThatArrived: () => host.arrived.map(({ id }) => id),
    ports: (kept) => {
      host.kept = kept
      return {
        kept,
        post: async (command) => {
          if (host.isAway) throw new Away()
          host.arrived.push(command)
          if (host.refuse(command)) return { ok: false, refusal }
          host.number += 1
          return { ok: true, revision: host.number, numbers: [host.number] }
        },
        upload: async (bytes) => {
          if (host.isAway) throw new Away()
          if (host.refusePhotos) return { ok: false, refusal: { ...refusal, code: 'photo' } }
          host.uploads.push(await bytes.text())
          return { ok: true, value: { sha256: 'a'.repeat(64), width: 4, height: 3, taken: null } }
        },
        isAway: (error) => error instanceof Away,
        onAccepted: () => Promise.resolve(),
        hostNow: () => host.now,
      }
    },
  }
  return host
}

export const command = (id: string, over: Partial<Command> = {}): Command => ({
  id: id as Command['id'],
  kind: 'addNote',
  carId: 'car-0001' as Command['carId'],
  seen: null,
  by: 'person-wren' as Command['by'],
  code: null,
  second: null,
  happened: null,
  made: '2026-11-25T10:40:00+00:00',
  payload: { text: id },
  ...over,
})

export const photo = (id: string, bytes: string): NewPhoto => ({
  attachmentId: id as NewPhoto['attachmentId'],
  commandId: `command-of-${id}` as NewPhoto['commandId'],
  carId: 'car-0001' as NewPhoto['carId'],
  by: 'person-wren' as NewPhoto['by'],
  made: '2026-11-25T10:40:00+00:00',
  name: 'photo.jpg',
  caption: 'channel, primed',
  serves: [{ what: 'car' }],
  bytes: new Blob([bytes]),
})
