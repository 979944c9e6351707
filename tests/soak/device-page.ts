import { createKept } from '../../renderer/outbox/kept.ts'
import { createOutbox, type Outbox } from '../../renderer/outbox/create-outbox.ts'
import { type DeviceNet, installDeviceNet, onDevice } from './device-net.ts'

installDeviceNet()
/** The client of the screens, which finds the network at its loading. */
const { client, isHostAway, notPaired, uploadPhoto } = await import('../../renderer/client.ts')

export type DeviceClient = typeof client

/** The app on a device without a screen: its outbox over the store of that device, and the client of the screens. */
export interface DevicePage {
  readonly outbox: Outbox
  /** As when the battery is flat: nothing of this page goes on, whatever it was waiting for. */
  readonly die: () => void
}

const TRY_AGAIN_MS = 1_000

/** Opens the app anew over what the device of this name has kept. */
export function openPage(name: string, net: DeviceNet): DevicePage {
  let isAlive = true
  /** What a dead page has asked for neither comes back nor fails. */
  const whileAlive = async <T>(work: () => Promise<T>): Promise<T> => {
    if (!isAlive) return never
    try {
      const result = await onDevice(net, work)
      return isAlive ? result : never
    } catch (error) {
      if (isAlive) throw error
      return never
    }
  }
  const kept = createKept(name)
  const outbox = createOutbox({
    kept: new Proxy(kept, {
      get: (store, key: keyof typeof kept) => {
        const act = store[key] as (...given: readonly unknown[]) => Promise<unknown>
        return (...given: readonly unknown[]) => whileAlive(() => act(...given))
      },
    }),
    post: (command) => whileAlive(() => client.command.mutate(command)),
    upload: (photo, onProgress) => whileAlive(() => uploadPhoto(photo, onProgress)),
    isAway: (error) => isHostAway(error) || notPaired(error) !== null,
    onAccepted: () => Promise.resolve(),
  })
  void outbox.flush()
  const timer = setInterval(() => void outbox.flush(), TRY_AGAIN_MS)
  return {
    outbox,
    die: () => {
      isAlive = false
      clearInterval(timer)
    },
  }
}

/**
 * Asks for a view as a screen of this device would: again where the host has closed the connection that was kept for it, as a
 * browser does.
 */
export async function askFor<T>(net: DeviceNet, ask: (client: DeviceClient) => Promise<T>): Promise<T> {
  const once = () => onDevice(net, () => ask(client))
  try {
    return await once()
  } catch (error) {
    if (!isHostAway(error)) throw error
    return once()
  }
}

/** Lets the device in by the address that the host has printed. */
export async function letIn(net: DeviceNet, windowUrl: string): Promise<void> {
  const { pathname, search } = new URL(windowUrl)
  const answer = await onDevice(net, () => fetch(pathname + search))
  const cookie = answer.headers.get('set-cookie')?.split(';')[0]
  if (cookie === undefined) throw new Error(`The host let nobody in (${answer.status}).`)
  net.cookie = cookie
}

const never = new Promise<never>(() => {})
