import type { TestHost } from '../support/host.ts'

/** Something that no screen would send. */
export interface Strange {
  /** The whole of it, so that it can be sent again by hand. */
  readonly say: string
  readonly ask: () => Promise<Response>
  /** The host that it comes to, where that is not the world's. */
  readonly on?: TestHost
}
