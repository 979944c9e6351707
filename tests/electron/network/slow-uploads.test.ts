import { once } from 'node:events'
import { createServer, connect, type AddressInfo, type Socket } from 'node:net'
import { setTimeout } from 'node:timers/promises'
import { afterEach, describe, expect, test } from 'vitest'
import { createConnectionCount, MOST_CONNECTIONS } from '../../../electron/network/connection-count.ts'
import { type DoorLimits, type NetworkDoor, openNetworkDoor } from '../../../electron/network/network-door.ts'

const address = '127.0.0.1'

let door: NetworkDoor | null = null
afterEach(async () => {
  await door?.close()
  door = null
})

/** A door that answers how many bytes it was sent, or keeps to itself that they broke off. */
async function openDoor(limits: DoorLimits): Promise<Socket> {
  const port = await freePort()
  door = await openNetworkDoor({
    handler: async (request) => new Response(`took ${(await request.bytes()).byteLength} bytes`),
    address,
    port,
    origins: [`http://${address}:${port}`],
    pair: null,
    connections: createConnectionCount(MOST_CONNECTIONS),
    limits,
  })
  const socket = connect(port, address).on('error', () => {})
  await once(socket, 'connect')
  return socket
}

async function freePort(): Promise<number> {
  const server = createServer().listen(0, address)
  await once(server, 'listening')
  const { port } = server.address() as AddressInfo
  server.close()
  await once(server, 'close')
  return port
}

const PIECES = 20
const head = `PUT /photos HTTP/1.1\r\nHost: ${address}\r\nContent-Length: ${PIECES}\r\n\r\n`

/** Sends piece by piece, with a pause before each, until the host breaks the connection. */
async function dribble(socket: Socket, pauseMs: number): Promise<void> {
  socket.write(head)
  for (let sent = 0; sent < PIECES && !socket.destroyed; sent += 1) {
    await setTimeout(pauseMs)
    socket.write('x')
  }
}

const heardOn = (socket: Socket): Promise<string> =>
  new Promise((resolve) => {
    let heard = ''
    socket.on('data', (bytes: Buffer) => {
      heard += bytes.toString()
      if (heard.includes('bytes')) resolve(heard)
    })
    socket.once('close', () => resolve(heard))
  })

describe('an upload over the workshop network', () => {
  test('that is slow and moves on is taken, however long it is beyond the silence that is borne', async () => {
    const socket = await openDoor({ silentMs: 1_500, requestMs: 60_000 })
    const heard = heardOn(socket)
    await dribble(socket, 90)
    expect(await heard).toContain(`took ${PIECES} bytes`)
    socket.destroy()
  })

  test('that does not move any more is broken', async () => {
    const socket = await openDoor({ silentMs: 200, requestMs: 600_000 })
    const heard = heardOn(socket)
    socket.write(`${head}x`)
    expect(await heard).toBe('')
  })

  test('that would never end is broken', async () => {
    const socket = await openDoor({ silentMs: 600_000, requestMs: 500 })
    const heard = heardOn(socket)
    await dribble(socket, 100)
    expect(await heard).not.toContain('took')
  })
})
