import type { NetworkDesk, NetworkState } from '../../electron/api/network-desk.ts'
import { ok } from '../../domain/refusal.ts'

/** A workshop network without a socket, for tests of the handler: one address, and a certificate of three bytes. */
export function createTestNetwork(): NetworkDesk {
  let state: NetworkState = { kind: 'closed' }
  return {
    state: () => state,
    open: async (scheme) => {
      const origins = [`${scheme}://192.168.1.20:47832`]
      state = { kind: 'open', scheme, port: 47_832, origins, trust: null, problem: null }
      return ok(true)
    },
    close: async () => {
      state = { kind: 'closed' }
    },
    certificate: () => (state.kind === 'closed' ? null : Uint8Array.of(1, 2, 3)),
    look: async () => {},
  }
}
