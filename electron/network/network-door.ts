import { once } from 'node:events'
import { createServer as createPlainServer, type RequestListener, type ServerOptions } from 'node:http'
import { createServer as createSecureServer } from 'node:https'
import type { Socket } from 'node:net'
import { getRequestListener } from '@hono/node-server'
import type { Handler } from '../api/app.ts'
import type { Door } from '../api/door.ts'
import type { ConnectionCount } from './connection-count.ts'
import type { KeyPair } from './key-files.ts'

export interface NetworkDoorOptions {
  readonly handler: Handler
  /** Of this computer. */
  readonly address: string
  readonly port: number
  readonly origins: readonly string[]
  /** Null for plain HTTP. */
  readonly pair: KeyPair | null
  /** Shared by all doors: what one device may have open does not grow with the number of addresses. */
  readonly connections: ConnectionCount
  /** The usual ones unless a test is in a hurry. */
  readonly limits?: DoorLimits
}

/** Milliseconds. */
export interface DoorLimits {
  /** A connection by which nothing comes and nothing goes for this long is broken. */
  readonly silentMs: number
  /** From the first byte of a request to its last one. */
  readonly requestMs: number
}

/** The host listening at one address of the workshop's network. */
export interface NetworkDoor {
  readonly usePair: (pair: KeyPair) => void
  /** Breaks every connection, whatever is under way. */
  readonly close: () => Promise<void>
}

/**
 * How long anything may take that a device does, so that slow ones do not fill the host. What moves on may take its time: where
 * the reception is worst a photo of 24 megapixels takes minutes, and the file of a car hours. Live connections say something
 * every five seconds.
 */
const USUAL_LIMITS: DoorLimits = { silentMs: 120_000, requestMs: 4 * 3_600_000 }
const HEADERS_MS = 10_000
const HANDSHAKE_MS = 10_000

const timesOf = ({ requestMs }: DoorLimits) =>
  ({
    headersTimeout: Math.min(HEADERS_MS, requestMs),
    requestTimeout: requestMs,
    connectionsCheckingInterval: Math.min(2_000, requestMs / 5),
    keepAliveTimeout: 20_000,
  }) satisfies ServerOptions

/** @throws the operating system's error when this address and port cannot be had */
export async function openNetworkDoor(options: NetworkDoorOptions): Promise<NetworkDoor> {
  const { address, port, pair, connections, limits = USUAL_LIMITS } = options
  const times = timesOf(limits)
  const sockets = new Set<Socket>()
  const server =
    pair === null
      ? createPlainServer(times, answerOf(options))
      : createSecureServer({ ...times, ...tlsOf(pair), handshakeTimeout: HANDSHAKE_MS }, answerOf(options))
  server.setTimeout(limits.silentMs)
  server.on('connection', (socket: Socket) => {
    if (!connections.take(socket)) {
      socket.destroy()
      return
    }
    sockets.add(socket)
    socket.once('close', () => sockets.delete(socket))
  })
  server.listen({ port, host: address, ipv6Only: true })
  await once(server, 'listening')
  return {
    usePair: (next) => {
      if ('setSecureContext' in server) server.setSecureContext(tlsOf(next))
    },
    close: () =>
      new Promise((resolve) => {
        server.close(() => resolve())
        for (const socket of sockets) socket.destroy()
      }),
  }
}

function answerOf({ handler, origins, connections }: NetworkDoorOptions): RequestListener {
  const door: Door = { origins, isNetwork: true }
  const answer = getRequestListener(
    (request, { incoming: { socket } }) => {
      const address = socket.remoteAddress ?? 'unknown'
      return handler(request, { address, isPaired: () => connections.keep(socket) }, door)
    },
    { overrideGlobalObjects: false },
  )
  return (incoming, outgoing) => void answer(incoming, outgoing)
}

function tlsOf({ certificate, key }: KeyPair) {
  return { cert: certificate, key, minVersion: 'TLSv1.2' as const }
}
