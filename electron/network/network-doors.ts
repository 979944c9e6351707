import { refuse, type Refusal } from '../../domain/refusal.ts'
import type { Handler } from '../api/app.ts'
import type { NetworkScheme } from '../api/network-desk.ts'
import { createConnectionCount, MOST_CONNECTIONS } from './connection-count.ts'
import type { KeyPair } from './key-files.ts'
import { type NetworkDoor, openNetworkDoor } from './network-door.ts'
import { authorityOf } from './private-addresses.ts'

export interface DoorsWanted {
  readonly scheme: NetworkScheme
  readonly port: number
  readonly addresses: readonly string[]
  /** The name that the host may be reached by beside its addresses, where the network knows it. */
  readonly hostName: string
  /** Null for plain HTTP. */
  readonly pair: KeyPair | null
}

export interface NetworkDoors {
  /**
   * Opens and closes doors until those that are wanted are open; one that stays open keeps its connections. All have one scheme and
   * port until `closeAll`.
   *
   * @returns the address and port of the first that could not be had, and why
   */
  readonly arrange: (wanted: DoorsWanted) => Promise<DoorProblem | null>
  readonly closeAll: () => Promise<void>
  /** Addresses that are listened at now, in their order. */
  readonly open: () => readonly string[]
}

export interface DoorProblem {
  readonly isPortTaken: boolean
  readonly refusal: Refusal
}

export interface DoorsOptions {
  readonly handler: Handler
  /** Where an address is listened at: there, unless a test runs on a computer without it. */
  readonly bindAt: (address: string) => string
}

/** All closed at first. */
export function createNetworkDoors({ handler, bindAt }: DoorsOptions): NetworkDoors {
  const connections = createConnectionCount(MOST_CONNECTIONS)
  const doors = new Map<string, NetworkDoor>()
  let shown: KeyPair | null = null

  const close = async (address: string) => {
    const door = doors.get(address)
    doors.delete(address)
    await door?.close()
  }

  const openAt = async (address: string, wanted: DoorsWanted): Promise<DoorProblem | null> => {
    const { scheme, port, pair, hostName } = wanted
    const authorities = [authorityOf(address, port), `${hostName}:${port}`]
    const origins = authorities.map((each) => `${scheme}://${each}`)
    try {
      const door = { handler, address: bindAt(address), port, origins, pair, connections }
      doors.set(address, await openNetworkDoor(door))
      return null
    } catch (error) {
      return problemOf(error, authorityOf(address, port))
    }
  }

  return {
    arrange: async (wanted) => {
      await Promise.all([...doors.keys()].filter((each) => !wanted.addresses.includes(each)).map(close))
      const { pair } = wanted
      if (pair !== null && pair.key !== shown?.key) for (const door of doors.values()) door.usePair(pair)
      shown = pair
      let problem: DoorProblem | null = null
      for (const address of wanted.addresses)
        if (!doors.has(address)) problem = (await openAt(address, wanted)) ?? problem
      return problem
    },
    closeAll: async () => {
      await Promise.all([...doors.keys()].map(close))
    },
    open: () => [...doors.keys()].sort(),
  }
}

function problemOf(error: unknown, at: string): DoorProblem {
  const code = error instanceof Error && 'code' in error ? String(error.code) : String(error)
  const isPortTaken = code === 'EADDRINUSE'
  const { refusal } = refuse(
    'not-now',
    isPortTaken
      ? `Another program of this computer has ${at}, so that tablets do not reach Panelwright there.`
      : `Tablets do not reach Panelwright at ${at}, as the system refused it (${code}).`,
    isPortTaken
      ? 'End that program, or close the network and open it again: it then takes another port.'
      : 'Look at the network settings of this computer. It is tried again twice a minute.',
  )
  return { isPortTaken, refusal }
}
