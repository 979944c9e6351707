import { once } from 'node:events'
import { createServer, type Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { getRequestListener } from '@hono/node-server'
import type { Handler } from './api/app.ts'
import type { Door } from './api/door.ts'

export interface Listening {
  /** Host and port, as in an address. */
  readonly authority: string
  /** Ends every connection; those with nothing under way at once, the others after a moment. */
  readonly close: () => Promise<void>
}

/** Only this computer can reach it. */
const LOOPBACK = '127.0.0.1'

/** The port when none is asked for: what a screen keeps on its device goes by the address, port included. */
const USUAL_PORT = 47_831

/** How long an answer under way may take to end when the host closes. */
const LAST_ANSWERS_MS = 2_000
const SWEEP_MS = 20

/**
 * Listens for screens on this computer. Without a port the usual one is taken, or any free one where another program
 * has it.
 *
 * @throws Error with a message for people when the port asked for cannot be had
 */
export async function listen(handler: Handler, port: number | undefined): Promise<Listening> {
  let door: Door = { origins: [], isNetwork: false }
  const answer = getRequestListener(
    (request, { incoming }) =>
      handler(request, { address: incoming.socket.remoteAddress ?? 'unknown' }, door),
    { overrideGlobalObjects: false },
  )
  // The file of a car may be many gigabytes, and only this computer can send one slowly.
  const server = createServer({ requestTimeout: 0 }, (incoming, outgoing) => void answer(incoming, outgoing))
  try {
    await listenOn(server, port ?? USUAL_PORT)
  } catch (error) {
    if (port !== undefined) throw portProblem(port, error)
    await listenOn(server, 0)
  }
  const authority = `${LOOPBACK}:${(server.address() as AddressInfo).port}`
  door = { origins: [`http://${authority}`], isNetwork: false }
  return {
    authority,
    close: () => closeServer(server),
  }
}

async function listenOn(server: Server, port: number): Promise<void> {
  server.listen(port, LOOPBACK)
  await once(server, 'listening')
}

function portProblem(port: number, error: unknown): Error {
  const code = error instanceof Error && 'code' in error ? String(error.code) : String(error)
  const why = code === 'EADDRINUSE' ? 'another program has it' : `the system refused it (${code})`
  return new Error(
    `Port ${port} cannot be had: ${why}. Give another with --port, or --port 0 for any free one.`,
  )
}

function closeServer(server: Server): Promise<void> {
  return new Promise((resolve) => {
    // A live connection that has just been ended stays open for a next request unless it is closed here.
    const sweep = setInterval(() => server.closeIdleConnections(), SWEEP_MS)
    const late = setTimeout(() => server.closeAllConnections(), LAST_ANSWERS_MS)
    server.close(() => {
      clearInterval(sweep)
      clearTimeout(late)
      resolve()
    })
  })
}
