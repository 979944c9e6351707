import process from 'node:process'
import { type BrowserContext, chromium, type Page } from 'playwright-core'
import { findBrowser, quietFlags } from '../../electron/browser.ts'
import { startHost } from '../../electron/host.ts'
import { filledDemo } from '../support/filled-demo.ts'
import { show } from '../support/every-screen.ts'
import { type Picture, type Viewer, viewers } from './screens.ts'

/** The demo on a host and in a browser whose clocks stand still, with a plan of all facts. */
export interface StandingDemo {
  /** The page of the picture, with everything on it. */
  readonly show: (picture: Picture) => Promise<Page>
  /** @throws Error when the host has logged a defect */
  readonly close: () => Promise<void>
}

const STANDS_AT = Date.parse(`${filledDemo.today}T10:40:00Z`)
/** Anything that does not come by then does not come at all, on a busy machine too. */
const PATIENCE_MS = 60_000

/** Letters as the font says, not as this computer would fit them to its pixels; colours as the style sheet says. */
const FLAGS = [
  '--disable-gpu',
  '--font-render-hinting=none',
  '--disable-lcd-text',
  '--force-color-profile=srgb',
]

/** @param dataDir a filled demo, which stays where it is */
export async function openStandingDemo(dataDir: string): Promise<StandingDemo> {
  const executablePath = findBrowser()
  if (executablePath === undefined)
    throw new Error('No Chromium-family browser was found: install one, then take the pictures again.')
  const log: string[] = []
  const host = await startHost({
    dataDir,
    demo: false,
    today: undefined,
    port: 0,
    window: false,
    log: (line) => log.push(line),
    clock: () => STANDS_AT,
    interfaces: () => ({}),
  })
  const browser = await chromium.launch({
    executablePath,
    args: [...FLAGS, ...quietFlags(process.getuid?.() === 0)],
  })
  const pages = new Map<Viewer, Page>()
  const pageOf = async (viewer: Viewer): Promise<Page> => {
    const page = pages.get(viewer) ?? (await openPage(await newContext(viewer), host, viewer))
    pages.set(viewer, page)
    return page
  }
  const newContext = async (viewer: Viewer): Promise<BrowserContext> => {
    const { width, height, colorScheme } = viewers[viewer]
    return browser.newContext({
      viewport: { width, height },
      colorScheme,
      isMobile: viewer === 'phone',
      hasTouch: viewer === 'phone',
      locale: 'en-GB',
      timezoneId: 'Europe/London',
      reducedMotion: 'reduce',
    })
  }
  return {
    show: async ({ viewer, at, press }) => {
      const page = await pageOf(viewer)
      await show(page, new URL(at, host.url).href)
      if (press !== null) await page.getByRole('button', { name: press, exact: true }).click()
      return page
    },
    close: async () => {
      await browser.close()
      await host.close()
      if (log.length > 0) throw new Error(`The host logged:\n${log.join('\n')}`)
    },
  }
}

async function openPage(
  context: BrowserContext,
  { url, windowUrl }: { readonly url: string; readonly windowUrl: string },
  viewer: Viewer,
): Promise<Page> {
  const { person, isSignedIn } = viewers[viewer]
  context.setDefaultTimeout(PATIENCE_MS)
  await context.clock.setFixedTime(STANDS_AT)
  await context.addInitScript((id) => localStorage.setItem('panelwright.person', id), person.id)
  const page = await context.newPage()
  await page.goto(windowUrl)
  if (isSignedIn) await signIn(context, url, person)
  await settled(context, url)
  return page
}

async function signIn(
  context: BrowserContext,
  url: string,
  { id, code }: { readonly id: string; readonly code: string },
): Promise<void> {
  const answer = await context.request.post(`${url}trpc/signIn`, {
    headers: { origin: new URL(url).origin },
    data: { personId: id, code },
  })
  const said = await answer.text()
  if (!said.includes('"ok":true')) throw new Error(`${id} could not sign in: ${said}`)
}

/** What the screens say of finishes goes by the newest plan, which is made once the host has started. */
async function settled(context: BrowserContext, url: string): Promise<void> {
  for (const end = performance.now() + PATIENCE_MS; performance.now() < end;) {
    const answer = await context.request.get(`${url}trpc/plan`)
    const { result } = (await answer.json()) as {
      readonly result: { readonly data: { readonly state: string } }
    }
    if (result.data.state === 'settled') return
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Error(`There was no plan of all facts after ${PATIENCE_MS / 1_000} s.`)
}

/** A picture of the page as it stays: two looks in a row see the same. */
export async function pictureOf(page: Page): Promise<Buffer> {
  await page.evaluate(() => document.fonts.ready.then(() => null))
  const look = () => page.screenshot({ animations: 'disabled', caret: 'hide' })
  let before = await look()
  for (let looks = 0; looks < MOST_LOOKS; looks++) {
    const now = await look()
    if (now.equals(before)) return now
    before = now
  }
  throw new Error(`${page.url()} does not come to rest.`)
}

const MOST_LOOKS = 50
