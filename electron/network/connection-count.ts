import type { Socket } from 'node:net'

/** How many connections devices have open. */
export interface ConnectionCount {
  /**
   * Counts a connection until it closes; false when its address has one too many. Where all are taken, the oldest of those
   * that no paired device has asked by is broken for it.
   */
  readonly take: (socket: Socket) => boolean
  /** Keeps a connection that a paired device asks by, whoever else wants in. Sockets of TLS count as those that they are in. */
  readonly keep: (socket: Pick<Socket, 'remoteAddress' | 'remotePort'>) => void
}

export interface MostConnections {
  readonly fromOneAddress: number
  readonly inAll: number
}

/** A browser opens six at once, and a live one for each of its pages. In all, far fewer than a process may have files open. */
export const MOST_CONNECTIONS: MostConnections = { fromOneAddress: 32, inAll: 512 }

/** Counts from nothing; one for all doors. */
export function createConnectionCount(most: MostConnections): ConnectionCount {
  const byAddress = new Map<string, number>()
  /** By the other end, the oldest first. */
  const unknown = new Map<string, Socket>()
  let inAll = 0

  const leave = (from: string) => {
    const left = (byAddress.get(from) ?? 1) - 1
    if (left > 0) byAddress.set(from, left)
    else byAddress.delete(from)
    inAll -= 1
  }
  /** False when paired devices have all. */
  const makeRoom = (): boolean => {
    const [oldest] = unknown
    if (oldest === undefined) return false
    const [end, socket] = oldest
    unknown.delete(end)
    socket.destroy()
    return true
  }
  return {
    take: (socket) => {
      const from = socket.remoteAddress ?? 'unknown'
      const open = byAddress.get(from) ?? 0
      if (open >= most.fromOneAddress || (inAll >= most.inAll && !makeRoom())) return false
      const end = endOf(socket)
      byAddress.set(from, open + 1)
      unknown.set(end, socket)
      inAll += 1
      socket.once('close', () => {
        if (unknown.get(end) === socket) unknown.delete(end)
        leave(from)
      })
      return true
    },
    keep: (socket) => void unknown.delete(endOf(socket)),
  }
}

const endOf = ({ remoteAddress, remotePort }: Pick<Socket, 'remoteAddress' | 'remotePort'>): string =>
  `${remoteAddress} ${remotePort}`
