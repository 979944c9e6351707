import { existsSync } from 'node:fs'
import { authorityKeyPath } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { createTurns } from '../../db/turns.ts'
import { ok, refuse, type Refusal } from '../../domain/refusal.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import type { Handler } from '../api/app.ts'
import type { NetworkDesk, NetworkScheme, NetworkState, Trust } from '../api/network-desk.ts'
import { createNetworkDoors, type DoorProblem } from './network-doors.ts'
import { readNetworkSetting, writeNetworkSetting } from './network-setting.ts'
import { authorityOf } from './private-addresses.ts'

export interface NetworkOptions {
  readonly db: Database
  readonly dataDir: string
  readonly handler: Handler
  /** The private addresses of this computer as they are now, sorted. */
  readonly addresses: () => readonly string[]
  /** Where an address is listened at: there, unless a test runs on a computer without it. */
  readonly bindAt?: ((address: string) => string) | undefined
  /** Epoch milliseconds, of the time that tablets go by. */
  readonly clock: () => number
}

export interface RunningNetwork extends NetworkDesk {
  /** For the end of the host: it opens again with the next one. */
  readonly shut: () => Promise<void>
}

/** Tried from this one on when no port is known; the same again ever after. */
const USUAL_PORT = 47_832
const PORTS_TRIED = 10

interface Opened {
  readonly scheme: NetworkScheme
  readonly port: number
  /** Null on plain HTTP, and before there is an address. */
  readonly trust: Trust | null
  readonly problem: Refusal | null
}

/** The workshop network; what was open when the host ended opens with the first `look`. One thing is done at a time. */
export function openNetworkDesk(options: NetworkOptions): RunningNetwork {
  const { db, dataDir, handler, addresses, bindAt = (address) => address, clock } = options
  const doors = createNetworkDoors({ handler, bindAt })
  const inTurn = createTurns()
  let certificate: Uint8Array<ArrayBuffer> | null = null
  let opened: Opened | null = null
  let isShut = false

  const arrange = async (scheme: NetworkScheme, port: number): Promise<DoorProblem | null> => {
    // Its library takes a third of a second to load, which a host that is never opened has no use for.
    const { loadCredentials } = await import('./credentials.ts')
    const found = addresses()
    const { authority, own } = await loadCredentials(dataDir, scheme === 'https' ? found : [], clock())
    const { hostName } = authority
    const wanted = { scheme, port, addresses: found, hostName, pair: own?.pair ?? null }
    const problem = await doors.arrange(wanted)
    certificate = authority.der
    const said = found.length === 0 ? nowhere : (problem?.refusal ?? null)
    opened = { scheme, port, trust: own?.trust ?? null, problem: said }
    return problem
  }

  const open = async (scheme: NetworkScheme) => {
    const kept = readNetworkSetting(db)
    for (const port of portsToTry(kept?.port)) {
      await doors.closeAll()
      const problem = await arrange(scheme, port)
      if (problem?.isPortTaken) continue
      writeNetworkSetting(db, { isOpen: true, scheme, port })
      return ok(true as const)
    }
    await doors.closeAll()
    opened = null
    return noPort
  }

  const close = async () => {
    opened = null
    await doors.closeAll()
    const kept = readNetworkSetting(db)
    if (kept !== null) writeNetworkSetting(db, { ...kept, isOpen: false })
  }

  const look = async () => {
    const kept = readNetworkSetting(db)
    // A copy of the database on another computer has no authority, and nobody opened the network there.
    if (isShut || !kept?.isOpen || !existsSync(authorityKeyPath(dataDir))) return
    await arrange(kept.scheme, kept.port)
  }

  return {
    state: () => (opened === null ? { kind: 'closed' } : stateOf(opened, doors.open())),
    certificate: () => certificate,
    open: (scheme) => inTurn(() => open(scheme).catch(unopened)),
    close: () => inTurn(close),
    look: () => inTurn(look),
    shut: () => {
      isShut = true
      return inTurn(doors.closeAll)
    },
  }
}

function stateOf({ port, scheme, ...rest }: Opened, listening: readonly string[]): NetworkState {
  const origins = listening.map((address) => `${scheme}://${authorityOf(address, port)}`)
  return { kind: 'open', scheme, port, origins, ...rest }
}

/** Start pages as typed on a tablet; none while the network is closed. */
export function reachedAt(state: NetworkState): readonly string[] {
  return state.kind === 'open' ? state.origins.map((origin) => `${origin}/`) : []
}

function portsToTry(kept: number | undefined): readonly number[] {
  const usual = Array.from({ length: PORTS_TRIED }, (_, more) => USUAL_PORT + more)
  return kept === undefined ? usual : [kept, ...usual.filter((port) => port !== kept)]
}

const { refusal: nowhere } = refuse(
  'not-now',
  'This computer is in no network of a workshop, so that tablets cannot reach it.',
  'Connect it by cable or Wi-Fi: its address shows here within a minute.',
)

/** What a file of the authority says of itself is for people; the host's log is not read by them. */
function unopened(error: unknown) {
  const message = errorMessage(error)
  return refuse('storage', `The network was not opened: ${message}`, 'Put this right and open it again.')
}

const noPort = refuse(
  'not-now',
  `Other programs have all ports from ${USUAL_PORT} to ${USUAL_PORT + PORTS_TRIED - 1} of this computer.`,
  'End a program that you do not need and open the network again.',
)
