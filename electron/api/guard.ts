import type { Context, MiddlewareHandler } from 'hono'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { doorOf, isSecure } from './door.ts'

/**
 * Lets through only what a screen of this host sends. Any page in any browser on this computer or in its network can reach
 * its addresses, and a name that someone else controls can be pointed at them: so scheme and Host must be an origin of the
 * door that the request came in by, Origin and Sec-Fetch-Site, where they are sent, must name the same one, and whatever
 * changes something must send its Origin.
 */
export const guardOrigin: MiddlewareHandler = async (c, next) => {
  const asked = new URL(c.req.url)
  const { host, origin, site } = sentBy(c)
  if (host !== asked.host || !doorOf(c).origins.includes(asked.origin)) return refused(c, 421, wrongHost)
  if (origin === null ? isChange(c) : origin !== asked.origin) return refused(c, 403, wrongOrigin)
  const isOwn = site === null || site === 'same-origin' || site === 'none'
  if (!isOwn && !isFormOpened(c)) return refused(c, 403, wrongOrigin)
  return next()
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
    "manifest-src 'self'",
    "worker-src 'self'",
    "form-action 'self'",
    "base-uri 'none'",
    "frame-ancestors 'none'",
  ].join('; ')
}

/** What the worker that opens the screens without the host may do: fetch their files. */
export const workerPolicy = "default-src 'none'; connect-src 'self'"

/** Set on every answer that has not set its own. */
export const secureHeaders: MiddlewareHandler = async (c, next) => {
  await next()
  for (const [name, value] of SECURE_HEADERS) if (!c.res.headers.has(name)) c.res.headers.set(name, value)
  if (isSecure(c)) c.res.headers.set('Strict-Transport-Security', `max-age=${A_DAY_S}`)
}

/** No longer, so that the workshop can go over to plain HTTP again; browsers keep it for the host's name, never for an address. */
const A_DAY_S = 24 * 3600

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

/** Answers a refusal to what is asked by plain HTTP; typed calls have their own form. */
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

/** A scanner may open the scanned address as a link of its own page; the form's page changes and shows nothing. */
function isFormOpened(c: Context): boolean {
  return c.req.method === 'GET' && c.req.path === '/pair' && c.req.header('sec-fetch-mode') === 'navigate'
}

function isChange(c: Context): boolean {
  return c.req.method !== 'GET' && c.req.method !== 'HEAD'
}

const { refusal: wrongHost } = refuse(
  'not-allowed',
  'This address is not the one that Panelwright is reached at.',
  'Use the address that it printed when it started, or one that stands under Network on the Workshop screen.',
)
const { refusal: wrongOrigin } = refuse(
  'not-allowed',
  'This request came from another page.',
  'Use a screen that was opened from Panelwright.',
)
