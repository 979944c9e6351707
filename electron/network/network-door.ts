import {
  createServer as createPlainServer,
  type RequestListener,
  type Server,
  type ServerOptions,
} from 'node:http'
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
}

/** The host listening at one address of the workshop's network. */
export interface NetworkDoor {
  readonly usePair: (pair: KeyPair) => void
  /** Breaks every connection, whatever is under way. */
  readonly close: () => Promise<void>
}

/**
 * How long anything may take that a device does, so that slow ones do not fill the host. A photo of 24 megapixels takes four
 * minutes where the reception is worst; live connections say something every five seconds.
 */
const TIMES = {
  headersTimeout: 10_000,
  requestTimeout: 10 * 60_000,
  connectionsCheckingInterval: 2_000,
  keepAliveTimeout: 20_000,
} satisfies ServerOptions
const HANDSHAKE_MS = 10_000
const SILENT_MS = 120_000

/** @throws the operating system's error when this address and port cannot be had */
export async function openNetworkDoor(options: NetworkDoorOptions): Promise<NetworkDoor> {
  const { address, port, pair, connections } = options
  const sockets = new Set<Socket>()
  const server =
    pair === null
      ? createPlainServer(TIMES, answerOf(options))
      : createSecureServer({ ...TIMES, ...tlsOf(pair), handshakeTimeout: HANDSHAKE_MS }, answerOf(options))
  server.setTimeout(SILENT_MS)
  server.on('connection', (socket: Socket) => {
    if (!connections.take(socket)) {
      socket.destroy()
      return
    }
    sockets.add(socket)
    socket.once('close', () => sockets.delete(socket))
  })
  await listenAt(server, port, address)
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

function answerOf({ handler, origins }: NetworkDoorOptions): RequestListener {
  const door: Door = { origins, isNetwork: true }
  const answer = getRequestListener(
    (request, { incoming }) =>
      handler(request, { address: incoming.socket.remoteAddress ?? 'unknown' }, door),
    { overrideGlobalObjects: false },
  )
  return (incoming, outgoing) => void answer(incoming, outgoing)
}

function tlsOf({ certificate, key }: KeyPair) {
  return { cert: certificate, key, minVersion: 'TLSv1.2' as const }
}

function listenAt(server: Server, port: number, host: string): Promise<void> {
  return new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen({ port, host, ipv6Only: true }, () => {
      server.off('error', reject)
      resolve()
    })
  })
}
