import { once } from 'node:events'
import { connect, type Socket } from 'node:net'
import { setTimeout } from 'node:timers/promises'
import { connect as greet } from 'node:tls'

export interface SlowFlood {
  /** Where the door listens. */
  readonly host: string
  readonly port: number
  /** The host's own name of itself, which its handler looks for in each request. */
  readonly authority: string
  /** How many are tried, over all waves. */
  readonly attempts: number
  /** How many are tried at a time; those that are let in stay, so that files run out only where the system allows few. */
  readonly wave: number
  /** Source addresses 127.0.x.y that they come from. */
  readonly sources: number
  /** What the host lets in: until no more are held the next wave waits, as the system itself takes some in before the host looks. */
  readonly most: number
}

export interface FloodFigures {
  readonly attempts: number
  /** Connections that the system made, and those that the host kept at the end of each wave, at most. */
  readonly connected: number
  readonly mostHeld: number
  /** Attempts that this process could not make, by the system's code: EMFILE where it may open no more files. */
  readonly failed: Readonly<Record<string, number>>
}

/** What a slow one begins and never ends, in turn; the last two have greeted, so that the second reaches the handler. */
type Begin = (socket: Socket, authority: string) => void
const BEGINNINGS: readonly Begin[] = [
  () => {},
  (socket) => void socket.write(Uint8Array.of(22, 3, 1)),
  (socket) => void socket.write('GET / HTTP/1.1\r\nHost: '),
  (socket) => sayWithin(socket, 'GET / HTTP/1.1\r\nHost: '),
  (socket, authority) => sayWithin(socket, slowForm(authority)),
]

/** Greets as a browser does and then says this, without looking at whose certificate it is. */
function sayWithin(socket: Socket, words: string): void {
  const greeted = greet({ socket, rejectUnauthorized: false })
  greeted.on('error', () => {})
  greeted.once('secureConnect', () => greeted.write(words))
}

/** The pairing form, of whose thousand bytes one comes. */
const slowForm = (authority: string): string =>
  [
    'POST /pair HTTP/1.1',
    `Host: ${authority}`,
    `Origin: https://${authority}`,
    'Content-Type: application/x-www-form-urlencoded',
    'Content-Length: 1000',
    '',
    'c',
  ].join('\r\n')

/** How often it is looked whether the host has broken what it does not want, and how often at most. */
const JUDGED_MS = 250
const LOOKS = 20

/**
 * Opens slow connections wave by wave and holds all that are let in, from many addresses, as a room full of devices that mean
 * ill would. While they are held, `meanwhile` is called after each wave.
 */
export async function floodSlowly(
  { host, port, authority, attempts, wave, sources, most }: SlowFlood,
  meanwhile: (held: number) => Promise<void>,
): Promise<FloodFigures> {
  const held = new Set<Socket>()
  const failed: Record<string, number> = {}
  let [connected, mostHeld] = [0, 0]
  const open = async (at: number) => {
    const from = at % sources
    const localAddress = `127.0.${1 + Math.floor(from / 250)}.${1 + (from % 250)}`
    const socket = connect({ host, port, localAddress })
    socket.on('error', (error: NodeJS.ErrnoException) => {
      if (socket.connecting) failed[error.code ?? 'unknown'] = (failed[error.code ?? 'unknown'] ?? 0) + 1
    })
    socket.once('close', () => held.delete(socket))
    const isOpen = await Promise.race([
      once(socket, 'connect').then(
        () => true,
        () => false,
      ),
      once(socket, 'close').then(() => false),
    ])
    if (!isOpen) return
    connected += 1
    held.add(socket)
    BEGINNINGS[at % BEGINNINGS.length]?.(socket, authority)
  }
  try {
    for (let at = 0; at < attempts; at += wave) {
      await Promise.all(Array.from({ length: Math.min(wave, attempts - at) }, (_, each) => open(at + each)))
      await setTimeout(JUDGED_MS)
      for (let looks = 1; held.size > most && looks < LOOKS; looks += 1) await setTimeout(JUDGED_MS)
      mostHeld = Math.max(mostHeld, held.size)
      await meanwhile(held.size)
    }
    return { attempts, connected, mostHeld, failed }
  } finally {
    for (const socket of held) socket.destroy()
  }
}
