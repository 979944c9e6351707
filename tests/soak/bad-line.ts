import { once } from 'node:events'
import { connect, createServer, type AddressInfo, type Socket } from 'node:net'
import { setTimeout } from 'node:timers/promises'
import type { Random } from '../support/random.ts'

/**
 * How the network between one device and the host is.
 * 'good': as the cable; 'slow': some 100 kB a second, each piece late; 'cut': nothing connects and all is broken;
 * 'stalled': nothing passes and nobody is told; 'losing uploads': broken somewhere in what the device sends;
 * 'losing answers': what the device sends arrives, and the connection is broken before or in the middle of the answer.
 */
export const LINE_STATES = ['good', 'slow', 'cut', 'stalled', 'losing uploads', 'losing answers'] as const
export type LineState = (typeof LINE_STATES)[number]

export interface BadLine {
  readonly port: number
  readonly become: (state: LineState) => void
  /** Connections broken so far, by the state that broke them. */
  readonly broken: ReadonlyMap<LineState, number>
  readonly close: () => Promise<void>
}

const SLOW_BYTES_A_MS = 100
const SLOW_LATE_MS = 40
/** A whole command, or the beginning of a photo. */
const MOST_BYTES_UP = 60_000
/** Nothing of the answer, or a part of its head or body. */
const MOST_BYTES_DOWN = 400

/** A line from a device to the host at this port, which does what is said to every connection it has and gets. */
export async function openBadLine(hostPort: number, random: Random): Promise<BadLine> {
  const connections = new Set<Connection>()
  const broken = new Map<LineState, number>()
  let state: LineState = 'good'
  let changed = Promise.withResolvers<void>()

  const breakOff = (connection: Connection) => {
    if (connection.isBroken) return
    connection.isBroken = true
    broken.set(state, (broken.get(state) ?? 0) + 1)
    for (const socket of [connection.device, connection.host]) socket.resetAndDestroy()
  }

  /** Passes what comes on as the line is at that moment; false when the connection is broken. */
  const pass = async (chunk: Buffer, connection: Connection, way: 'up' | 'down'): Promise<boolean> => {
    while (state === 'stalled') await changed.promise
    if (state === 'slow') await setTimeout(SLOW_LATE_MS * random.next() + chunk.byteLength / SLOW_BYTES_A_MS)
    const losing = way === 'up' ? 'losing uploads' : 'losing answers'
    if (state !== losing) return !connection.isBroken
    connection.left[way] -= chunk.byteLength
    if (connection.left[way] > 0) return !connection.isBroken
    const socket = way === 'up' ? connection.host : connection.device
    const kept = Math.max(0, chunk.byteLength + connection.left[way])
    socket.write(chunk.subarray(0, kept), () => breakOff(connection))
    return false
  }

  const carry = async (from: Socket, to: Socket, connection: Connection, way: 'up' | 'down') => {
    try {
      for await (const chunk of from as AsyncIterable<Buffer>) {
        if (!(await pass(chunk, connection, way))) return
        if (!to.write(chunk)) await once(to, 'drain')
      }
      to.end()
    } catch {
      // One end is gone: so is the other.
      for (const socket of [from, to]) socket.destroy()
    }
  }

  const server = createServer((device) => {
    if (state === 'cut') return void device.resetAndDestroy()
    const host = connect(hostPort, '127.0.0.1')
    const left = { up: random.between(0, MOST_BYTES_UP), down: random.between(0, MOST_BYTES_DOWN) }
    const connection: Connection = { device, host, left, isBroken: false }
    connections.add(connection)
    for (const socket of [device, host]) {
      socket.on('error', () => {})
      socket.once('close', () => {
        connections.delete(connection)
        for (const each of [device, host]) each.destroy()
      })
    }
    void carry(device, host, connection, 'up')
    void carry(host, device, connection, 'down')
  })
  server.listen(0, '127.0.0.1')
  await once(server, 'listening')
  return {
    port: (server.address() as AddressInfo).port,
    broken,
    become: (next) => {
      const wasStalled = state === 'stalled'
      // What was stalled goes on sometimes, and sometimes the other end has given it up.
      if (next === 'cut' || (wasStalled && random.next() < 0.5))
        for (const each of connections) breakOff(each)
      state = next
      changed.resolve()
      changed = Promise.withResolvers()
    },
    close: async () => {
      state = 'cut'
      changed.resolve()
      for (const { device, host } of connections) for (const socket of [device, host]) socket.destroy()
      server.close()
      await once(server, 'close')
    },
  }
}

interface Connection {
  readonly device: Socket
  readonly host: Socket
  /** Bytes that still pass before it is broken, where the line is losing them. */
  readonly left: { up: number; down: number }
  isBroken: boolean
}
