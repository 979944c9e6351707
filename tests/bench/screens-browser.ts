import type { Browser, BrowserContext, CDPSession, Page } from 'playwright-core'
import type { MeasuredHost } from './measured-host.ts'
import { installProbe, type Mark } from './screens-probe.ts'
import { rounded } from './timing.ts'

/** As what the browser's main thread has worked since its page began, ms of processor time. */
export interface Work {
  readonly task: number
  readonly script: number
  /** Layout and the styles that it goes by. */
  readonly layout: number
}

/** A page of a browser that has nothing of the program yet, with its meters. */
export interface MeasuredPage {
  readonly page: Page
  readonly work: () => Promise<Work>
  /** Of the page's own objects, after a garbage collection, in MB of 10^6 bytes. */
  readonly heapMb: () => Promise<number>
  readonly end: () => Promise<void>
}

/** Anything that does not come by then is a failure of the bench, which names it. */
const PATIENCE_MS = 20_000

/** A browser does things of its own when a window of it opens, which are no part of the program that is opened in it. */
const SETTLE_MS = 1_000

export async function openMeasured(
  browser: Browser,
  host: MeasuredHost,
  { personId, first }: { readonly personId: string; readonly first: Mark },
): Promise<MeasuredPage> {
  const context = await browser.newContext({
    viewport: { width: 1440, height: 900 },
    locale: 'en-GB',
    timezoneId: 'Europe/Berlin',
  })
  context.setDefaultTimeout(PATIENCE_MS)
  await letIn(context, host)
  await context.addInitScript((id) => localStorage.setItem('panelwright.person', id), personId)
  await context.addInitScript(installProbe, first)
  const page = await context.newPage()
  await page.waitForTimeout(SETTLE_MS)
  const meters = await context.newCDPSession(page)
  await meters.send('Performance.enable', { timeDomain: 'threadTicks' })
  return {
    page,
    work: () => workOf(meters),
    heapMb: async () => {
      await meters.send('HeapProfiler.collectGarbage')
      return rounded(((await metricsOf(meters)).get('JSHeapUsedSize') ?? 0) / 1e6, 1)
    },
    end: () => context.close(),
  }
}

async function letIn(context: BrowserContext, { origin, cookie }: MeasuredHost): Promise<void> {
  const [name = '', value = ''] = cookie.split('=')
  await context.addCookies([{ name, value, url: origin, httpOnly: true, sameSite: 'Strict' }])
}

async function metricsOf(meters: CDPSession): Promise<ReadonlyMap<string, number>> {
  const { metrics } = await meters.send('Performance.getMetrics')
  return new Map(metrics.map(({ name, value }) => [name, value]))
}

async function workOf(meters: CDPSession): Promise<Work> {
  const metrics = await metricsOf(meters)
  const ms = (name: string) => (metrics.get(name) ?? 0) * 1_000
  return {
    task: ms('TaskDuration'),
    script: ms('ScriptDuration'),
    layout: ms('LayoutDuration') + ms('RecalcStyleDuration'),
  }
}
