import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gzipSync } from 'node:zlib'
import type { Browser, Page } from 'playwright-core'
import type { MeasuredHost } from './measured-host.ts'
import { type MeasuredPage, openMeasured, type Work } from './screens-browser.ts'
import type { ColdScreen, Move } from './screens-list.ts'
import type { Drawn, Mark, Shift } from './screens-probe.ts'
import { rounded } from './timing.ts'

export interface ColdFigures {
  readonly interactiveMs: number
  readonly drawnMs: number
  readonly cpuMs: number
  readonly scriptMs: number
  readonly layoutMs: number
  /** Sum of all scores until a second after it was drawn: before it was, and from then on. */
  readonly shiftBefore: number
  readonly shiftAfter: number
  readonly shifted: readonly string[]
  readonly heapMb: number
  /** What was asked for before it was drawn, gzipped: page, scripts and styles; and fonts. */
  readonly bundleKb: number
  readonly fontKb: number
}

export interface MoveFigures {
  /** From the click until the frame with the screen and its data is painted. */
  readonly withDataMs: number
  /** Until anything is painted after the click, as the browser tells it in steps of 8 ms; 16 stands for less than that too. */
  readonly nextPaintMs: number
  readonly cpuMs: number
  readonly shift: number
  readonly shifted: readonly string[]
}

/** Without a long task for so long after it was drawn, a screen counts as interactive. */
const QUIET_MS = 300
/** What still moves is waited for. */
const AFTER_MS = 1_000
/** The browser tells of an event and its paint a little later. */
const TOLD_AFTER_MS = 150

const built = fileURLToPath(new URL('../../dist/renderer/', import.meta.url))

export async function measureCold(
  browser: Browser,
  host: MeasuredHost,
  { name, mark }: ColdScreen,
  personId: string,
): Promise<ColdFigures> {
  const measured = await openMeasured(browser, host, { personId, first: mark })
  const { page } = measured
  try {
    await page.goto(host.origin + mark.path, { waitUntil: 'commit' })
    const drawn = await whenDrawn(page, name, mark)
    const work = await measured.work()
    await page.waitForTimeout(AFTER_MS)
    const { tasks, shifts, files } = await page.evaluate((at) => {
      const of = performance.getEntriesByType('resource')
      const before = of.filter(({ startTime }) => startTime < at).map((each) => each.name)
      return { tasks: probe.tasks, shifts: probe.shifts, files: [location.href, ...before] }
    }, drawn.at)
    const interactive = tasks.reduce(
      (end, { at, ms }) => (at + ms > end && at < end + QUIET_MS ? at + ms : end),
      drawn.at,
    )
    return {
      interactiveMs: rounded(interactive, 0),
      drawnMs: rounded(drawn.at, 0),
      cpuMs: rounded(work.task, 0),
      scriptMs: rounded(work.script, 0),
      layoutMs: rounded(work.layout, 0),
      shiftBefore: scoreOf(shifts.filter(({ at }) => at < drawn.at)),
      shiftAfter: scoreOf(shifts.filter(({ at }) => at >= drawn.at)),
      shifted: wordsOf(shifts),
      heapMb: await measured.heapMb(),
      ...bytesOf(files),
    }
  } finally {
    await measured.end()
  }
}

/** The moves twice: first with nothing read yet, then with what was read a moment ago. */
export async function measureMoves(
  browser: Browser,
  host: MeasuredHost,
  { from, moves, personId }: { from: ColdScreen; moves: readonly Move[]; personId: string },
): Promise<readonly Readonly<Record<string, MoveFigures>>[]> {
  const measured = await openMeasured(browser, host, { personId, first: from.mark })
  try {
    await measured.page.goto(host.origin + from.mark.path)
    await whenDrawn(measured.page, from.name, from.mark)
    // The code of the other screens is fetched meanwhile.
    await measured.page.waitForLoadState('networkidle').catch(() => undefined)
    await measured.page.waitForTimeout(AFTER_MS)
    const rounds: Record<string, MoveFigures>[] = []
    for (let round = 0; round < 2; round += 1) {
      const figures: Record<string, MoveFigures> = {}
      for (const move of moves) figures[move.name] = await measureMove(measured, move)
      rounds.push(figures)
    }
    return rounds
  } finally {
    await measured.end()
  }
}

async function measureMove({ page, work }: MeasuredPage, move: Move): Promise<MoveFigures> {
  const link = page.locator(move.click).first()
  await link.scrollIntoViewIfNeeded()
  const begun = await page.evaluate((mark) => {
    probe.expect(mark, 'click')
    return performance.now()
  }, move.mark)
  const before = await work()
  await link.click()
  const { drawnMs } = await whenDrawn(page, move.name, move.mark)
  const spent = difference(await work(), before)
  await page.waitForTimeout(TOLD_AFTER_MS)
  const { paints, shifts } = await page.evaluate(
    (since) => ({
      paints: probe.paints.filter(({ at }) => at >= since),
      shifts: probe.shifts.filter(({ at }) => at >= since),
    }),
    begun,
  )
  return {
    withDataMs: rounded(drawnMs, 0),
    nextPaintMs: Math.max(16, ...paints.map(({ ms }) => ms)),
    cpuMs: rounded(spent.task, 0),
    shift: scoreOf(shifts),
    shifted: wordsOf(shifts),
  }
}

/** Fails with the name of the screen when it does not come: what it was waiting for is told. */
export async function whenDrawn(page: Page, name: string, mark: Mark): Promise<Drawn> {
  const late = page.waitForTimeout(30_000).then(() => null)
  const drawn = await Promise.race([page.evaluate(() => probe.whenDrawn()), late])
  if (drawn !== null) return drawn
  const shown = await page.evaluate(() => `${location.href}: ${document.body.innerText.slice(0, 300)}`)
  throw new Error(`'${name}' did not come within 30 s (${JSON.stringify(mark)}). Shown is ${shown}`)
}

const difference = (a: Work, b: Work): Work => ({
  task: a.task - b.task,
  script: a.script - b.script,
  layout: a.layout - b.layout,
})

const scoreOf = (shifts: readonly Shift[]): number =>
  rounded(
    shifts.reduce((sum, { score }) => sum + score, 0),
    4,
  )

const wordsOf = (shifts: readonly Shift[]): readonly string[] =>
  shifts.map(({ at, score, of }) => `${rounded(score, 4)} at ${rounded(at, 0)} ms: ${of}`)

/** Sizes as the build made them, in kB of 1,000 bytes; a font is compressed as it is. */
function bytesOf(addresses: readonly string[]): Pick<ColdFigures, 'bundleKb' | 'fontKb'> {
  const paths = [...new Set(addresses.map((address) => new URL(address).pathname))]
  const size = (matches: (path: string) => boolean, of: (bytes: Buffer) => number) =>
    rounded(
      paths.filter(matches).reduce((sum, path) => sum + of(readFileSync(join(built, path))), 0) / 1e3,
      1,
    )
  const page = gzipSync(readFileSync(join(built, 'index.html'))).length / 1e3
  return {
    bundleKb: rounded(
      page +
        size(
          (path) => /\.(js|css)$/.test(path),
          (bytes) => gzipSync(bytes).length,
        ),
      1,
    ),
    fontKb: size(
      (path) => path.endsWith('.woff2'),
      ({ length }) => length,
    ),
  }
}
