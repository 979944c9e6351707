import type { Context, MiddlewareHandler } from 'hono'
import { refuse, type Refusal } from '../../domain/refusal.ts'

/**
 * Lets through only what a screen of this host sends. Any page in any browser on this computer can reach a loopback
 * address, and a name that someone else controls can be pointed at it: so the Host must be this host's own authority,
 * Origin and Sec-Fetch-Site, where they are sent, must name it, and whatever changes something must send its Origin.
 *
 * @param authority host and port as in an address, known once the host listens
 */
export function guardOrigin(authority: () => string): MiddlewareHandler {
  return async (c, next) => {
    const own = authority()
    const { host, origin, site } = sentBy(c)
    if (host !== own || new URL(c.req.url).host !== own) return refused(c, 421, wrongHost)
    if (origin === null ? isChange(c) : origin !== `http://${own}`) return refused(c, 403, wrongOrigin)
    if (site !== null && site !== 'same-origin' && site !== 'none') return refused(c, 403, wrongOrigin)
    return next()
  }
}

/**
 * A page may load only what this host serves, run no script but its files, and be framed by nobody.
 *
 * @param styleNonce of this one answer: for the rule that the component library writes into the page itself
 */
export function pagePolicy(styleNonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    `style-src 'self' 'nonce-${styleNonce}'`,
    "img-src 'self' blob: data:",
    "font-src 'self'",
    "connect-src 'self'",
    "media-src 'self' blob:",
    "frame-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** Set on every answer that has not set its own. */
export const secureHeaders: MiddlewareHandler = async (c, next) => {
  await next()
  for (const [name, value] of SECURE_HEADERS) if (!c.res.headers.has(name)) c.res.headers.set(name, value)
}

const SECURE_HEADERS = [
  [
    'Content-Security-Policy',
    "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'",
  ],
  ['X-Content-Type-Options', 'nosniff'],
  ['Referrer-Policy', 'no-referrer'],
  [
    'Permissions-Policy',
    'camera=(self), microphone=(), geolocation=(), payment=(), usb=(), interest-cohort=()',
  ],
  ['Cross-Origin-Opener-Policy', 'same-origin'],
  ['Cross-Origin-Resource-Policy', 'same-origin'],
  ['Cache-Control', 'no-store'],
] as const

export function refused(
  c: Context,
  status: 401 | 403 | 404 | 413 | 415 | 421 | 422 | 500 | 507,
  refusal: Refusal,
) {
  return c.json({ ok: false as const, refusal }, status)
}

function sentBy(c: Context) {
  const header = (name: string) => c.req.header(name) ?? null
  return {
    host: header('host') ?? new URL(c.req.url).host,
    origin: header('origin'),
    site: header('sec-fetch-site'),
  }
}

function isChange(c: Context): boolean {
  return c.req.method !== 'GET' && c.req.method !== 'HEAD'
}

const { refusal: wrongHost } = refuse(
  'not-allowed',
  'This address is not the one that Panelwright is reached at.',
  'Use the address that it printed when it started.',
)
const { refusal: wrongOrigin } = refuse(
  'not-allowed',
  'This request came from another page.',
  'Use a screen that was opened from Panelwright.',
)
