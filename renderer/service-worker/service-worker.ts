/*
 * Opens the screens while the host is away. It keeps one whole version of them and nothing else: no answer of the host and no
 * photo ever goes through it. With the host there the page always comes from the host, so that it fits what answers it.
 */
/** Written in by the build: a digest of all files of this version, and their paths. */
declare const SHELL_VERSION: string
declare const SHELL_FILES: string[]

export {}

const worker = self as unknown as ServiceWorkerGlobalScope

const OURS = 'screens-'
const SHELL = OURS + SHELL_VERSION
const PAGE = '/index.html'
/** A host that takes longer than this to send the page counts as away. */
const PAGE_WAIT_MS = 3_000

worker.addEventListener('install', (event) => event.waitUntil(keepShell()))
worker.addEventListener('activate', (event) => event.waitUntil(dropOlder()))
worker.addEventListener('message', ({ data, ports }) => {
  ports[0]?.postMessage(SHELL_VERSION)
  // Only a page of this very version may bring it into force: another one still needs its own files.
  if (data === SHELL_VERSION) void worker.skipWaiting()
})
worker.addEventListener('fetch', (event) => {
  const url = new URL(event.request.url)
  if (event.request.method !== 'GET' || url.origin !== worker.location.origin) return
  if (url.pathname.startsWith('/assets/')) event.respondWith(fileOf(event.request))
  else if (event.request.mode === 'navigate' && isScreen(url)) event.respondWith(pageFor(event.request))
})

/** All or nothing. The page is kept with the header of its policy, which names the nonce in it. */
async function keepShell(): Promise<void> {
  const shell = await caches.open(SHELL)
  await shell.addAll(SHELL_FILES)
  const page = await fetch(PAGE, { cache: 'reload' })
  const isOfThisVersion = page.ok && (await page.clone().text()).includes(SHELL_VERSION)
  if (!isOfThisVersion) throw new Error('The host has other screens by now.')
  await shell.put(PAGE, page)
}

async function dropOlder(): Promise<void> {
  const names = await caches.keys()
  await Promise.all(
    names.filter((name) => name.startsWith(OURS) && name !== SHELL).map((name) => caches.delete(name)),
  )
}

/** Names of files carry their digest, so whichever version one is of, it is the right one. */
async function fileOf(request: Request): Promise<Response> {
  return (await caches.match(request)) ?? fetch(request)
}

/** Pairing and the address that carries a secret are the host's own affair, and so is every file. */
function isScreen({ pathname, searchParams }: URL): boolean {
  return pathname !== '/pair' && !searchParams.has('enter') && !/\.[a-z0-9]+$/i.test(pathname)
}

async function pageFor(request: Request): Promise<Response> {
  const fromHost = fetch(request)
  const kept = await (await caches.open(SHELL)).match(PAGE)
  if (kept === undefined) return fromHost
  const late = new Promise<Response>((resolve) => setTimeout(resolve, PAGE_WAIT_MS, kept))
  return Promise.race([fromHost, late]).catch(() => kept)
}
