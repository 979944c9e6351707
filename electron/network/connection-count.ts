import type { Socket } from 'node:net'

/** How many connections devices have open. */
export interface ConnectionCount {
  /** Counts a connection until it closes; false when it is one too many. */
  readonly take: (socket: Socket) => boolean
}

export interface MostConnections {
  readonly fromOneAddress: number
  readonly inAll: number
}

/** A browser opens six at once, and a live one for each of its pages. In all, far fewer than a process may have files open. */
export const MOST_CONNECTIONS: MostConnections = { fromOneAddress: 32, inAll: 512 }

export function createConnectionCount(most: MostConnections): ConnectionCount {
  const byAddress = new Map<string, number>()
  let inAll = 0
  return {
    take: (socket) => {
      const from = socket.remoteAddress ?? 'unknown'
      const open = byAddress.get(from) ?? 0
      if (open >= most.fromOneAddress || inAll >= most.inAll) return false
      byAddress.set(from, open + 1)
      inAll += 1
      socket.once('close', () => {
        const left = (byAddress.get(from) ?? 1) - 1
        if (left > 0) byAddress.set(from, left)
        else byAddress.delete(from)
        inAll -= 1
      })
      return true
    },
  }
}
