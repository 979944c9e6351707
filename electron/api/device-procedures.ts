import { z } from 'zod'
import { readDevices, renameDevice, revokeDevice, type Device } from '../../db/devices.ts'
import type { Moment } from '../../domain/car.ts'
import { deviceIdSchema } from '../../domain/ids.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { nameSchema } from '../../domain/text/safe-text.ts'
import type { ApiServices } from './api-services.ts'
import type { CodeState, PairingCodes } from './pairing-code.ts'
import { procedure } from './trpc.ts'

export interface DevicesView {
  /** In the order of their pairing. */
  readonly devices: readonly Device[]
  /** What became of the code that was shown last. */
  readonly code: CodeState | null
}

export type PairingCodeAnswer =
  | {
      readonly ok: true
      readonly text: string
      readonly until: Moment
      /** Addresses that open the form with the code filled in, the likeliest first. */
      readonly links: readonly string[]
    }
  | { readonly ok: false; readonly refusal: Refusal }

export type DeviceAnswer = { readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }

const ofDevice = z.strictObject({ deviceId: deviceIdSchema })

/** The devices of the workshop: letting in, naming and shutting out, for managers. */
export function createDeviceProcedures(services: ApiServices, codes: PairingCodes) {
  const { deps, revisions, deviceEnds } = services
  const { db } = deps
  return {
    devices: procedure.query((): DevicesView => ({ devices: readDevices(db), code: codes.state() })),

    /** A mutation, as the code that was shown before counts no longer. */
    pairingCode: procedure.mutation(async ({ ctx }): Promise<PairingCodeAnswer> => {
      if (!ctx.asker.isHostsOwn) return notHere
      const { text, until } = await codes.make()
      return { ok: true, text, until, links: deps.reachedAt().map((url) => `${url}pair?code=${text}`) }
    }),

    renameDevice: procedure
      .input(ofDevice.extend({ name: nameSchema }))
      .mutation(({ input }): DeviceAnswer => {
        if (!renameDevice(db, input.deviceId, input.name)) return unknownDevice
        revisions.announce(true)
        return { ok: true }
      }),

    /** At once: its cookie counts no longer, nobody is signed in on it, and its live connection ends. What it sent stays. */
    shutOutDevice: procedure.input(ofDevice).mutation(({ input, ctx }): DeviceAnswer => {
      if (input.deviceId === ctx.asker.device.id) return thisDevice
      if (!revokeDevice(db, input.deviceId, deps.now())) return unknownDevice
      deviceEnds.end(input.deviceId)
      revisions.announce(true)
      return { ok: true }
    }),
  }
}

const notHere = refuse(
  'not-allowed',
  'A device is let in on the computer that Panelwright runs on.',
  'Open its own window there.',
)
const unknownDevice = refuse(
  'unknown',
  'This device is not paired any more.',
  'Look at the list again: somebody else may have shut it out.',
)
const thisDevice = refuse(
  'not-allowed',
  'This is the device that you are using.',
  'Shut it out from another one.',
)
