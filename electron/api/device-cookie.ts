import type { Context } from 'hono'
import { getCookie, setCookie } from 'hono/cookie'
import { isSecure } from './door.ts'

const A_YEAR_S = 365 * 24 * 3600

/**
 * The token of the device that asks; null when it has none. By HTTPS only a cookie under the prefix `__Host-` counts, which no
 * plain page and no other name can set.
 */
export function deviceToken(c: Context, name: string): string | null {
  return (isSecure(c) ? getCookie(c, name, 'host') : getCookie(c, name)) ?? null
}

/** Gives a device its token. Scripts cannot read it, and no other page makes a browser send it. */
export function giveDeviceToken(c: Context, name: string, token: string): void {
  const options = { path: '/', httpOnly: true, sameSite: 'Strict', maxAge: A_YEAR_S } as const
  setCookie(c, name, token, isSecure(c) ? { ...options, secure: true, prefix: 'host' } : options)
}
