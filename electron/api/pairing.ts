import type { Context } from 'hono'
import { deviceByToken, pairDevice, type Device } from '../../db/devices.ts'
import { deviceIdSchema, type DeviceId } from '../../domain/ids.ts'
import type { ApiDeps } from './deps.ts'
import { deviceToken, giveDeviceToken } from './device-cookie.ts'
import { doorOf } from './door.ts'
import { usedAddressPage } from './pages.ts'

/** The paired device that a request comes from. */
export interface Asker {
  readonly device: Device
  /** Entered by the secret of this run: the host's own window, or the screen that its printed address opened. */
  readonly isHostsOwn: boolean
}

export interface Pairing {
  /** Answers `/?enter=SECRET`: the secret becomes the device's cookie, and the address loses it. */
  readonly enter: (c: Context, secret: string) => Response
  readonly askerOf: (c: Context) => Asker | null
}

export function createPairing({ db, now, entry, cookieName }: ApiDeps): Pairing {
  const hostsOwn = new Set<DeviceId>()

  const knownDevice = (c: Context): Device | null => {
    const token = deviceToken(c, cookieName)
    return token === null ? null : deviceByToken(db, token)
  }

  const pair = (c: Context): Device => {
    const id = deviceIdSchema.parse(crypto.randomUUID())
    const { device, token } = pairDevice(db, { id, name: "The host's own screen" }, now())
    giveDeviceToken(c, cookieName, token)
    return device
  }

  return {
    enter: (c, secret) => {
      // The secret is for screens of this computer: only their cookie may be the host's own.
      if (doorOf(c).isNetwork || !entry.use(secret)) return c.html(usedAddressPage, 403)
      const device = knownDevice(c) ?? pair(c)
      hostsOwn.add(device.id)
      return c.redirect('/', 303)
    },
    askerOf: (c) => {
      const device = knownDevice(c)
      return device === null ? null : { device, isHostsOwn: !doorOf(c).isNetwork && hostsOwn.has(device.id) }
    },
  }
}
