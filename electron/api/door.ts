import type { Context } from 'hono'

/** What a request came in by: the host listens for its own computer and, when it is opened, for the workshop's network. */
export interface Door {
  /** What screens reach it by, scheme included: 'https://192.168.1.20:47832'. */
  readonly origins: readonly string[]
  /** False where only this computer comes in. */
  readonly isNetwork: boolean
}

/** The door that a request came in by; every request has one. */
export function doorOf(c: Context): Door {
  return (c.env as { readonly door: Door }).door
}

/** Whether what is sent cannot be read or changed on its way. */
export function isSecure(c: Context): boolean {
  return new URL(c.req.url).protocol === 'https:'
}
