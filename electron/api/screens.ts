import type { Context } from 'hono'
import { pagePolicy, workerPolicy } from './guard.ts'
import { screenOfPath } from './screen-of-path.ts'

/** A file of the built screens. */
export interface ScreenFile {
  readonly type: string
  readonly bytes: Uint8Array<ArrayBuffer>
  /** The same compressed, where the build has done so. */
  readonly gzipped?: Uint8Array<ArrayBuffer>
}

/** Reads the built screens by path, as in '/assets/index-Ab12.js'; null for what is not among them. */
export type ReadScreen = (path: string) => ScreenFile | null

const FIRST_PAGE = '/index.html'
const WORKER = '/service-worker.js'

/**
 * Files with a digest in their name never change; the page itself is asked for each time. A path without a file name is
 * an address inside the screens and gets the page.
 */
export function serveScreen(c: Context, readScreen: ReadScreen): Response {
  const { pathname } = new URL(c.req.url)
  const file = pathname === FIRST_PAGE ? null : readScreen(pathname)
  if (file !== null) {
    const cache = pathname.startsWith('/assets/') ? 'private, max-age=31536000, immutable' : 'no-cache'
    const policy = pathname === WORKER ? { 'Content-Security-Policy': workerPolicy } : {}
    const headers = { 'Content-Type': file.type, 'Cache-Control': cache, ...policy }
    if (file.gzipped === undefined) return c.body(file.bytes, 200, headers)
    const varying = { ...headers, Vary: 'Accept-Encoding' }
    return takesGzip(c)
      ? c.body(file.gzipped, 200, { ...varying, 'Content-Encoding': 'gzip' })
      : c.body(file.bytes, 200, varying)
  }
  const isFile = /\.[a-z0-9]+$/i.test(pathname) && pathname !== FIRST_PAGE
  return isFile ? c.text('There is no such file.', 404) : servePage(c, readScreen, pathname)
}

const takesGzip = (c: Context): boolean =>
  /(^|[\s,])gzip\s*(,|$|;\s*q=(1|0\.\d*[1-9]))/i.test(c.req.header('Accept-Encoding') ?? '')

function servePage(c: Context, readScreen: ReadScreen, path: string): Response {
  const page = readScreen(FIRST_PAGE)
  if (page === null) return c.text('The screens have not been built: run npm start.', 500)
  const nonce = crypto.randomUUID()
  const html = new TextDecoder()
    .decode(page.bytes)
    .replace('<head>', `<head><meta property="csp-nonce" nonce="${nonce}">`)
    .replace('</head>', `${linksOf(path, readScreen)}</head>`)
  return c.html(html, 200, { 'Content-Security-Policy': pagePolicy(nonce), 'Cache-Control': 'no-cache' })
}

const LINKS = '/screen-links.json'

/** So that scripts and styles of the screen that the address names come with the first script, and not once it has run. */
function linksOf(path: string, readScreen: ReadScreen): string {
  const screen = screenOfPath(path)
  const file = screen === null ? null : readScreen(LINKS)
  if (screen === null || file === null) return ''
  const links = JSON.parse(new TextDecoder().decode(file.bytes)) as Readonly<Record<string, string>>
  return links[screen] ?? ''
}
