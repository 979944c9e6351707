import type { Context } from 'hono'
import { z } from 'zod'
import { deviceByToken, pairDevice, renewDevice, shutOutName, type Device } from '../../db/devices.ts'
import { readSetting, writeSetting } from '../../db/settings.ts'
import { deviceIdSchema, type DeviceId } from '../../domain/ids.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { nameSchema } from '../../domain/text/safe-text.ts'
import type { ApiDeps } from './deps.ts'
import { deviceToken, giveDeviceToken } from './device-cookie.ts'
import { createDeviceUses } from './device-uses.ts'
import { doorOf } from './door.ts'
import { answerPage, pairingPage, usedAddressPage } from './pages.ts'
import { plainCode, type PairingCodes } from './pairing-code.ts'

/** The paired device that a request comes from. */
export interface Asker {
  readonly device: Device
  /** Entered by the secret of this run: the host's own window, or the screen that its printed address opened. */
  readonly isHostsOwn: boolean
}

export interface Pairing {
  /** Answers `/?enter=SECRET`: the secret becomes the device's cookie, and the address loses it. */
  readonly enter: (c: Context, secret: string) => Response | Promise<Response>
  readonly askerOf: (c: Context) => Asker | null
  /** The page that says how to pair, with the form for the code; `code` of the address fills it in. */
  readonly showForm: (c: Context, status: 200 | 401) => Promise<Response>
  /** Answers the form: the right code becomes the device's cookie. */
  readonly takeForm: (c: Context, address: string) => Promise<Response>
  /** Whether a request comes from a device that was let in once and then shut out. */
  readonly wasShutOut: (c: Context) => boolean
}

/** The code may be typed in groups; far longer ones are not worth reading. */
const formSchema = z.object({ code: z.string().max(40, 'This is no pairing code.'), name: nameSchema })

const OWN_SCREEN = "The host's own screen"

/** Lets devices in: the host's own screens by the secret of this run, all others by a pairing code. */
export function createPairing(deps: ApiDeps, codes: PairingCodes): Pairing {
  const { db, now, entry, cookieName, log } = deps
  const hostsOwn = new Set<DeviceId>()
  const recordUse = createDeviceUses(db, log)

  const tokenOf = (c: Context): string | null => deviceToken(c, cookieName)
  const knownDevice = (c: Context): Device | null => {
    const token = tokenOf(c)
    return token === null ? null : deviceByToken(db, token)
  }
  const shutOutAs = (c: Context): string | null => {
    const token = tokenOf(c)
    return token === null ? null : shutOutName(db, token)
  }

  const pair = (c: Context, name: string): Device => {
    const id = deviceIdSchema.parse(crypto.randomUUID())
    const { device, token } = pairDevice(db, { id, name }, now())
    giveDeviceToken(c, cookieName, token)
    return device
  }

  /** There is one window: where its browser has lost the cookie, it goes on as the device that it was. */
  const pairWindow = (c: Context): Device => {
    const known = deviceIdSchema.safeParse(readSetting(db, 'ownWindow'))
    const renewed = known.success ? renewDevice(db, known.data) : null
    if (renewed !== null) {
      giveDeviceToken(c, cookieName, renewed.token)
      return renewed.device
    }
    const device = pair(c, OWN_SCREEN)
    writeSetting(db, 'ownWindow', device.id)
    return device
  }

  const refuseForm = (
    c: Context,
    typed: { readonly code: string; readonly name: string },
    refusal: Refusal,
  ) => {
    const status = refusal.code === 'locked' ? 429 : refusal.code === 'bad-input' ? 422 : 403
    return answerPage(c, pairingPage({ ...typed, refusal, shutOutAs: shutOutAs(c) }), status)
  }

  return {
    enter: (c, secret) => {
      // The secret is for screens of this computer: only their cookie may be the host's own.
      if (doorOf(c).isNetwork || !entry.use(secret)) return answerPage(c, usedAddressPage(), 403)
      const device = knownDevice(c) ?? (entry.uses === 'once' ? pairWindow(c) : pair(c, OWN_SCREEN))
      hostsOwn.add(device.id)
      return c.redirect('/', 303)
    },
    askerOf: (c) => {
      const device = knownDevice(c)
      if (device === null) return null
      recordUse(device.id, now())
      return { device, isHostsOwn: !doorOf(c).isNetwork && hostsOwn.has(device.id) }
    },
    showForm: (c, status) => {
      const name = shutOutAs(c)
      const code = plainCode(c.req.query('code') ?? '').slice(0, 8)
      return answerPage(c, pairingPage({ code, name: name ?? '', refusal: null, shutOutAs: name }), status)
    },
    takeForm: async (c, address) => {
      if (knownDevice(c) !== null) return c.redirect('/', 303)
      const sent = await readForm(c)
      const typed = { code: textOf(sent['code']), name: textOf(sent['name']) }
      const form = formSchema.safeParse(typed)
      if (!form.success) return refuseForm(c, typed, unread(form.error.issues[0]?.message))
      const used = await codes.use(form.data.code, address, form.data.name)
      if (!used.ok) return refuseForm(c, typed, used.refusal)
      pair(c, form.data.name)
      return c.redirect('/', 303)
    },
    wasShutOut: (c) => shutOutAs(c) !== null,
  }
}

/** Fetch says by a TypeError that a body is no form of the kind that it is said to be: then nothing was filled in. */
async function readForm(c: Context): Promise<Readonly<Record<string, unknown>>> {
  try {
    return await c.req.parseBody()
  } catch (error) {
    if (error instanceof TypeError) return {}
    throw error
  }
}

/** Too long is cut, so that it is not sent back as a whole. */
const textOf = (value: unknown): string => (typeof value === 'string' ? value.slice(0, 200) : '')

const unread = (message: string | undefined): Refusal =>
  refuse('bad-input', message ?? 'This cannot be read.', 'Fill in both fields and try again.').refusal
