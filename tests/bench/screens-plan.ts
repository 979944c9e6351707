import type { Browser, Page } from 'playwright-core'
import type { MeasuredHost } from './measured-host.ts'
import { openMeasured } from './screens-browser.ts'
import { PLAN } from './screens-list.ts'
import { whenDrawn } from './screens-measure.ts'
import { rounded } from './timing.ts'

export interface PlanFigures {
  /** Of the main thread, while scrolling sideways, down and up, and zooming by wheel and by the steps. */
  readonly longestTaskMs: number
  /** Of the task that worked longest: its processor time. */
  readonly longestTaskCpuMs: number
  /** Tasks over 50 ms, by the clock and in processor time. */
  readonly over50: number
  readonly over50Cpu: number
  readonly blocks: number
}

const NOTCH = 100
const SCROLLS = 60
const ZOOMS = 14

export async function measurePlan(
  browser: Browser,
  host: MeasuredHost,
  personId: string,
): Promise<PlanFigures> {
  const measured = await openMeasured(browser, host, { personId, first: PLAN.mark })
  const { page } = measured
  try {
    await page.goto(host.origin + PLAN.mark.path)
    await whenDrawn(page, PLAN.name, PLAN.mark)
    await page.waitForTimeout(2_000)
    await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-toplevel'] })
    await moveAbout(page)
    const tasks = tasksOf(JSON.parse((await browser.stopTracing()).toString()) as Trace)
    if (tasks.length === 0) throw new Error('The browser told of no task while the plan was scrolled.')
    return {
      longestTaskMs: rounded(Math.max(...tasks.map(({ ms }) => ms)), 1),
      longestTaskCpuMs: rounded(Math.max(...tasks.map(({ cpuMs }) => cpuMs)), 1),
      over50: tasks.filter(({ ms }) => ms > 50).length,
      over50Cpu: tasks.filter(({ cpuMs }) => cpuMs > 50).length,
      blocks: await page.locator('main [data-key]').count(),
    }
  } finally {
    await measured.end()
  }
}

/** As a person does with a wheel: notch by notch, each with a few frames between. */
async function moveAbout(page: Page): Promise<void> {
  const drawing = await page.getByRole('group', { name: 'The plan, drawn.' }).boundingBox()
  if (drawing === null) throw new Error('The plan is not drawn.')
  await page.mouse.move(drawing.x + drawing.width / 2, drawing.y + Math.min(drawing.height / 2, 300))
  const roll = async (x: number, y: number, times: number) => {
    for (let each = 0; each < times; each += 1) {
      await page.mouse.wheel(x, y)
      await page.waitForTimeout(30)
    }
  }
  const zoom = async (y: number) => {
    await page.keyboard.down('Control')
    await roll(0, y, ZOOMS)
    await page.keyboard.up('Control')
  }
  await roll(2 * NOTCH, 0, SCROLLS)
  await roll(-4 * NOTCH, 0, SCROLLS / 2)
  await zoom(-NOTCH)
  await roll(3 * NOTCH, 0, SCROLLS / 2)
  await zoom(NOTCH)
  await zoom(NOTCH)
  await roll(2 * NOTCH, 0, SCROLLS / 2)
  for (const words of ['Week', '3 months', '6 months', '4 weeks', 'Today'])
    await page.getByRole('button', { name: words, exact: true }).click()
  await page.waitForTimeout(300)
}

interface Trace {
  readonly traceEvents: readonly {
    readonly name: string
    readonly pid: number
    readonly tid: number
    readonly ph: string
    readonly dur?: number
    readonly tdur?: number
    readonly args?: { readonly name?: string }
  }[]
}

interface Task {
  readonly ms: number
  readonly cpuMs: number
}

/** Tasks of the threads that draw pages. */
function tasksOf({ traceEvents }: Trace): readonly Task[] {
  const drawing = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  )
  return traceEvents
    .filter(({ name, pid, tid }) => name === 'ThreadControllerImpl::RunTask' && drawing.has(`${pid} ${tid}`))
    .map(({ dur = 0, tdur = 0 }) => ({ ms: dur / 1e3, cpuMs: tdur / 1e3 }))
}
