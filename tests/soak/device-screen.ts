import process from 'node:process'
import { chromium, type Browser, type Page, type Request } from 'playwright-core'
import { findBrowser, quietFlags } from '../../electron/browser.ts'
import { createTestPhoto } from '../support/images.ts'
import type { Random } from '../support/random.ts'
import type { Worker } from './device-floor.ts'
import { sha256Of } from './kill-book.ts'

/** A device with a real screen: a browser of its own, which finds the host by its own line. */
export interface DeviceScreen {
  readonly page: Page
  /** Digests of the photos that were given to the page. */
  readonly photos: ReadonlySet<string>
  /** Ids of the commands that the page has sent, and of those that it was told are refused. */
  readonly sent: ReadonlySet<string>
  readonly refused: ReadonlySet<string>
  /** Uncaught errors of the page. */
  readonly errors: readonly string[]
  /** One thing that a person does; nothing when the screen is not ready for it. */
  readonly act: () => Promise<void>
  /** Stops the clock where it runs. */
  readonly finish: () => Promise<void>
  /** The words of the screen at this address, opened anew in a page of its own. */
  readonly wordsAt: (path: string) => Promise<string>
  readonly close: () => Promise<void>
}

const SHOWN_BY_MS = 15_000

/** What a person waits for a button. */
const PATIENCE_MS = 3_000

export interface ScreenOptions {
  readonly windowUrl: string
  readonly linePort: number
  readonly worker: Worker
  readonly random: Random
}

/** Opens the repair that this person works on, and says who is here. */
export async function openScreen({
  windowUrl,
  linePort,
  worker,
  random,
}: ScreenOptions): Promise<DeviceScreen> {
  const { host, origin } = new URL(windowUrl)
  const browser = await launch([`--host-resolver-rules=MAP ${host} 127.0.0.1:${linePort}`])
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    hasTouch: true,
    locale: 'en-GB',
    timezoneId: 'Europe/Berlin',
    reducedMotion: 'reduce',
  })
  const page = await context.newPage()
  const photos = new Set<string>()
  const sent = new Set<string>()
  const refused = new Set<string>()
  const errors: string[] = []
  page.on('response', async (response) => {
    // An answer that breaks off has told the page nothing.
    const isRefused = await response.json().then(isRefusal, () => false)
    if (isRefused) sentIds(response.request()).forEach((id) => refused.add(id))
  })
  page.on('request', (request) => sentIds(request).forEach((id) => sent.add(id)))
  page.on('pageerror', (error) => errors.push(error.message))
  const [repair] = worker.own
  if (repair === undefined) throw new Error('There is nothing to do at this screen.')
  await page.goto(windowUrl)
  await page.goto(`${origin}/cars/${repair.carId}/repairs/${repair.repairId}`)
  await page.getByRole('button', { name: 'who is here?' }).click()
  await page.getByRole('menuitem', { name: worker.name }).click()
  await page.getByText(`${worker.name} is here`).waitFor()
  page.setDefaultTimeout(PATIENCE_MS)

  const takePhoto = async () => {
    const buffer = await createTestPhoto({ width: 320, height: 240, color: '#446688' })
    const chooser = page.waitForEvent('filechooser')
    // Who does not get to choose a file has taken no photo.
    chooser.catch(() => {})
    await page.getByRole('button', { name: /^Take photos/ }).click()
    const opened = await chooser
    photos.add(sha256Of(buffer))
    await opened.setFiles({ name: `${photos.size}.jpg`, mimeType: 'image/jpeg', buffer })
  }
  const stopClock = () => page.getByRole('button', { name: 'stop clock' }).click()
  const clock = () => page.getByRole('button', { name: 'clock in here' }).or(stopButton(page)).click()
  return {
    page,
    photos,
    sent,
    refused,
    errors,
    act: () => random.pick([takePhoto, takePhoto, takePhoto, clock])(),
    finish: async () => {
      if (await stopButton(page).isVisible()) await stopClock()
    },
    wordsAt: async (path) => {
      const fresh = await context.newPage()
      try {
        await fresh.goto(origin + path)
        return await settledWords(fresh)
      } finally {
        await fresh.close()
      }
    },
    close: () => browser.close(),
  }
}

/** What the screen says once it says the same twice; a screen that comes to nothing says why, if it can. */
export async function settledWords(page: Page): Promise<string> {
  const main = page.locator('main')
  try {
    await main.waitFor({ timeout: SHOWN_BY_MS })
  } catch {
    return `${page.url()} shows no screen: ${await page.locator('body').innerText()}`
  }
  let before = ''
  for (;;) {
    const words = await main.innerText()
    if (words !== '' && words === before) return words
    before = words
    await page.waitForTimeout(400)
  }
}

const stopButton = (page: Page) => page.getByRole('button', { name: 'stop clock' })

function launch(flags: readonly string[]): Promise<Browser> {
  const executablePath = findBrowser()
  if (executablePath === undefined) throw new Error('No Chromium-family browser was found: install one.')
  const args = ['--disable-gpu', '--disable-quic', ...quietFlags(process.getuid?.() === 0), ...flags]
  return chromium.launch({ executablePath, args })
}

const isRefusal = (answer: unknown): boolean =>
  (answer as { result?: { data?: { ok?: boolean } } } | null)?.result?.data?.ok === false

function sentIds(request: Request): readonly string[] {
  if (request.method() !== 'POST' || !request.url().endsWith('/trpc/command')) return []
  const { id } = (request.postDataJSON() ?? {}) as { readonly id?: string }
  return id === undefined ? [] : [id]
}
