import type { Moment } from '../../domain/car.ts'
import type { Refusal, Result } from '../../domain/refusal.ts'

/** `http` is plain: whoever is in the network can read and change what is sent. */
export type NetworkScheme = 'https' | 'http'

export type NetworkState =
  | { readonly kind: 'closed' }
  | {
      readonly kind: 'open'
      readonly scheme: NetworkScheme
      readonly port: number
      /** What is typed on a tablet, one for each address that is listened at: 'https://192.168.1.20:47832'. */
      readonly origins: readonly string[]
      /** Null on plain HTTP. */
      readonly trust: Trust | null
      /** Why nothing, or not everything, can be reached though it is open; it is tried again twice a minute. */
      readonly problem: Refusal | null
    }

/** What a tablet needs to trust the host. */
export interface Trust {
  /** As a tablet lists the authority: 'Panelwright workshop 1a2b3c4d'. */
  readonly title: string
  /** SHA-256 of the authority's certificate, 64 hexadecimal digits in groups of four. */
  readonly fingerprint: string
  /** The last moment of the host's certificate, which is renewed before. */
  readonly until: Moment
}

/** Opens the host to the workshop's network and closes it again. */
export interface NetworkDesk {
  readonly state: () => NetworkState
  /** Opens it, or opens it anew by the other scheme. It stays open over restarts, on the same port. */
  readonly open: (scheme: NetworkScheme) => Promise<Result<true>>
  /** Ends every connection that came in by it, at once. */
  readonly close: () => Promise<void>
  /** The authority's certificate, DER; null before it was first opened by HTTPS. */
  readonly certificate: () => Uint8Array<ArrayBuffer> | null
  /** Takes in a new address, lets go of an old one, and renews the certificate. */
  readonly look: () => Promise<void>
}
