import { subscribe, unsubscribe } from 'node:diagnostics_channel'
import { rmSync } from 'node:fs'
import type { Socket } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { onTestFinished } from 'vitest'
import { type HostOptions, startHost } from '../../electron/host.ts'
import { launchBrowser, newScreen, type Screen } from './browser.ts'
import { copyFilledDemo, filledDemo } from './filled-demo.ts'
import { PLAIN_HOST } from './plain-host.ts'
import { slug } from './plans.ts'
import { createWorkshop, type Workshop, type WorkshopOptions } from './workshop.ts'

export interface ServeOptions extends Pick<WorkshopOptions, 'setUp'> {
  /** The networks that the host's computer is in; none unless a test brings its own. */
  readonly networks?: Pick<HostOptions, 'interfaces' | 'bindAt'>
  /** What has happened in the small workshop before the first screen is opened, by real commands. */
  readonly before?: (workshop: Workshop) => void
}

export interface OpenOptions extends Screen {
  /** Where the screen starts, as '/cars'. */
  readonly at?: string
  /** Errors on the page's console that belong to the test, such as those of a network that is cut. */
  readonly tolerates?: readonly RegExp[]
}

export interface OpenedScreen {
  readonly page: Page
  readonly context: BrowserContext
}

/** A real host on a data folder of its own, with the real Chromium screens that are opened on it. */
export interface Served {
  readonly url: string
  readonly dataDir: string
  /** Opens and pairs one more screen: a browser of its own, as far as cookies and storage go. */
  readonly open: (options?: OpenOptions) => Promise<OpenedScreen>
  /** Moves the host's clock on; else it runs as the test runs. */
  readonly pass: (time: { readonly hours?: number; readonly minutes?: number }) => void
  /** Breaks every open connection, as when the cable is pulled: a browser told to be offline only makes no new ones. */
  readonly breakConnections: () => void
}

/** What a page's console says while the network is cut. */
export const cutNetwork = [/net::ERR_/]

/** Opens a screen on the host that printed this address. */
export type OpenScreen = (windowUrl: string, options?: OpenOptions) => Promise<OpenedScreen>

/** Serves the small workshop to one test, on a Monday morning of its own clock. */
export async function serve({ setUp = true, before, networks }: ServeOptions = {}): Promise<Served> {
  const workshop = createWorkshop({ keptIn: 'folder', setUp })
  before?.(workshop)
  workshop.db.close()
  return serveFolder(workshop.dataDir ?? '', workshop.now, networks)
}

/** Serves the demo workshop to one test, filled up to a Wednesday. */
export async function serveDemo(): Promise<Served> {
  return serveFolder(await copyFilledDemo(), Date.parse(`${filledDemo.today}T10:40:00Z`))
}

/** Host and screens end with the test, which fails when the host has logged a defect or a page an unexpected error. */
async function serveFolder(
  dataDir: string,
  from: number,
  networks: ServeOptions['networks'] = { interfaces: () => ({}) },
): Promise<Served> {
  const log: string[] = []
  const started = Date.now()
  let begins = from
  const host = await startHost({
    dataDir,
    ...PLAIN_HOST,
    log: (line) => log.push(line),
    clock: () => begins + Date.now() - started,
    ...networks,
  })
  const connections = watchConnections()
  onTestFinished(async () => {
    connections.stop()
    await host.close()
    rmSync(dataDir, { recursive: true, force: true })
    failFor(log)
  })
  const open = await openBrowser()
  return {
    url: host.url,
    dataDir,
    open: (options) => open(host.windowUrl, options),
    pass: ({ hours = 0, minutes = 0 }) => {
      begins += (hours * 60 + minutes) * 60_000
    },
    breakConnections: connections.breakAll,
  }
}

/** Every connection that a request comes in by, in this process. */
function watchConnections() {
  const open = new Set<Socket>()
  const note = (message: unknown) => {
    const { socket } = message as { readonly socket: Socket }
    if (open.has(socket)) return
    open.add(socket)
    socket.once('close', () => open.delete(socket))
  }
  subscribe('http.server.request.start', note)
  return {
    breakAll: () => open.forEach((socket) => socket.destroy()),
    stop: () => unsubscribe('http.server.request.start', note),
  }
}

/** Screens for one test, which fails when a page of it had an error that its screen does not tolerate. */
export async function openBrowser(): Promise<OpenScreen> {
  const browser = await (sharedBrowser ??= launchBrowser())
  const errors: string[] = []
  onTestFinished(async ({ task }) => {
    if (task.result?.state === 'fail') await keepPictures(browser, task.name)
    await Promise.all(browser.contexts().map((context) => context.close()))
    failFor(errors)
  })
  return (windowUrl, options = {}) => openScreen(browser, windowUrl, options, errors)
}

/** One for all tests of a file, which share nothing in it: each screen has cookies and storage of its own. */
let sharedBrowser: Promise<Browser> | null = null

/** To be called after each file, because files share this module. */
export async function closeBrowser(): Promise<void> {
  const launched = sharedBrowser
  sharedBrowser = null
  await (await launched)?.close()
}

/** Leaves a picture of every page in the folder for temporary files and says where. */
async function keepPictures(browser: Browser, name: string): Promise<void> {
  const pages = browser.contexts().flatMap((context) => context.pages())
  for (const [index, page] of pages.entries()) {
    const path = join(tmpdir(), 'panelwright-screens', `${slug(name).slice(0, 60)}-${index + 1}.png`)
    await page.screenshot({ path })
    console.error(`${page.url()} as it was: ${path}`)
  }
}

/** Fails when there is an error; a violated Content-Security-Policy is one on the page's console. */
function failFor(errors: readonly string[]): void {
  if (errors.length > 0) throw new Error(`Errors that no test expects:\n${errors.join('\n')}`)
}

async function openScreen(
  browser: Browser,
  windowUrl: string,
  { at = '/', tolerates = [], ...screen }: OpenOptions,
  errors: string[],
): Promise<OpenedScreen> {
  const context = await newScreen(browser, screen)
  context.setDefaultTimeout(15_000)
  const note = (words: string) => {
    if (!tolerates.some((expected) => expected.test(words))) errors.push(words)
  }
  context.on('page', (page) => {
    page.on('console', (message) => {
      if (message.type() === 'error') note(`${message.text()} (${message.location().url}, on ${page.url()})`)
    })
    page.on('pageerror', (error) => note(`${error.stack ?? error.message} (on ${page.url()})`))
  })
  const page = await context.newPage()
  await page.goto(windowUrl)
  if (at !== '/') await page.goto(new URL(at, windowUrl).href)
  return { page, context }
}
