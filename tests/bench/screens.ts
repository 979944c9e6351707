import { rmSync } from 'node:fs'
import { loadavg } from 'node:os'
import process from 'node:process'
import { parseArgs } from 'node:util'
import type { Browser } from 'playwright-core'
import { demoPeople } from '../../db/demo/demo-people.ts'
import { launchBrowser } from '../support/browser.ts'
import { copyFilledDemo, filledDemo } from '../support/filled-demo.ts'
import { filledDemoFolder } from '../support/filled-demo-folder.ts'
import { codes, manager, welder } from '../support/workshop.ts'
import { folderOfYears } from './kept-years.ts'
import { type MeasuredHost, startMeasuredHost } from './measured-host.ts'
import { openMeasured } from './screens-browser.ts'
import { coldScreens, moves, type OneCar, SHOP_FLOOR } from './screens-list.ts'
import { type ColdFigures, measureCold, measureMoves, type MoveFigures } from './screens-measure.ts'
import { measurePlan, type PlanFigures } from './screens-plan.ts'
import { momentOn } from './ten-years-car.ts'
import { LAST_MORNING, yearsFilled } from './ten-years.ts'
import { quantile, rounded } from './timing.ts'

export interface ScreensFigures {
  /** Of the slowest screen that is opened from cold, until it is interactive; and which it is. */
  readonly coldMs: number
  readonly slowestCold: string
  /** Of the screen that works longest until it is drawn, ms of processor time of the page's main thread. */
  readonly coldCpuMs: number
  /** Of all moves, until the screen is painted with its data. */
  readonly moveP95Ms: number
  readonly moveP95CpuMs: number
  readonly slowestMove: string
  /** Of moves, until anything is painted. */
  readonly nextPaintP95Ms: number
  /** The largest sum of scores of one screen. */
  readonly layoutShift: number
  readonly longestTaskMs: number
  readonly longestTaskCpuMs: number
  /** Page, scripts and styles that the shop floor and the day sheet ask for before they are drawn, gzipped; the larger one. */
  readonly initialKb: number
  readonly heapMb: number
  readonly demo: WorkshopScreens
  readonly years: WorkshopScreens
  readonly load: readonly number[]
}

export interface WorkshopScreens {
  readonly cold: Readonly<Record<string, ColdFigures>>
  readonly firstMoves: Readonly<Record<string, MoveFigures>>
  readonly laterMoves: Readonly<Record<string, MoveFigures>>
  readonly plan: PlanFigures
}

interface Workshop {
  readonly dataDir: string
  readonly now: number
  readonly manager: { readonly id: string; readonly code: string }
  readonly person: string
  /** Null: the first one in the list of cars. */
  readonly carPath: string | null
}

/**
 * Every screen in Chromium, on the demo and on ten years of records, from the built host in a process of its own. What is measured
 * is defined in docs/speed.md. Options: --years N.
 */
export async function benchScreens(args: readonly string[]): Promise<ScreensFigures> {
  const { values } = parseArgs({ args: [...args], options: { years: { type: 'string', default: '10' } } })
  const browser = await launchBrowser()
  try {
    const demo = await screensOf(browser, await demoToMeasure())
    const years = await screensOf(browser, yearsToMeasure(Number(values.years)))
    return { ...summary([demo, years]), demo, years, load: loadavg().map((each) => rounded(each, 1)) }
  } finally {
    await browser.close()
    rmSync(filledDemoFolder(process.ppid), { recursive: true, force: true })
  }
}

async function demoToMeasure(): Promise<Workshop> {
  console.error('Filling the demo; this takes a quarter of a minute.')
  const { maren, wren } = demoPeople
  return {
    dataDir: await copyFilledDemo(),
    now: Date.parse(`${filledDemo.today}T10:40:00Z`),
    manager: maren,
    person: wren.id,
    carPath: null,
  }
}

function yearsToMeasure(years: number): Workshop {
  const car = yearsFilled(years).inWork[5]
  return {
    dataDir: folderOfYears(years),
    now: momentOn(LAST_MORNING, 10),
    manager: { id: manager, code: codes[manager] ?? '' },
    person: welder,
    carPath: car === undefined ? null : `/cars/${car.carId}`,
  }
}

async function screensOf(browser: Browser, workshop: Workshop): Promise<WorkshopScreens> {
  const host = await startMeasuredHost(workshop.dataDir, workshop.now)
  try {
    await signIn(host, workshop.manager)
    const { person } = workshop
    // The first one after the host's start, which has folded no car and answered nothing yet.
    const cold = { [SHOP_FLOOR.name]: await measureCold(browser, host, SHOP_FLOOR, person) }
    const car = await oneCar(browser, host, workshop)
    for (const screen of coldScreens(car))
      cold[screen.name] ??= await measureCold(browser, host, screen, person)
    const walk = { from: SHOP_FLOOR, moves: moves(car), personId: person }
    const [firstMoves = {}, laterMoves = {}] = await measureMoves(browser, host, walk)
    return { cold, firstMoves, laterMoves, plan: await measurePlan(browser, host, person) }
  } finally {
    await host.end()
    rmSync(workshop.dataDir, { recursive: true, force: true })
  }
}

async function signIn({ origin, cookie }: MeasuredHost, { id, code }: Workshop['manager']): Promise<void> {
  const answer = await fetch(`${origin}/trpc/signIn`, {
    method: 'POST',
    headers: { cookie, origin, 'content-type': 'application/json' },
    body: JSON.stringify({ personId: id, code }),
  })
  const said = await answer.text()
  if (!said.includes('"ok":true')) throw new Error(`The manager could not sign in: ${said}`)
}

/** A car in work with the repair that its map names first, as a person finds them. */
async function oneCar(browser: Browser, host: MeasuredHost, { carPath, person }: Workshop): Promise<OneCar> {
  const { page, end } = await openMeasured(browser, host, { personId: person, first: SHOP_FLOOR.mark })
  try {
    const hrefOf = async (at: string, link: string): Promise<string> => {
      await page.goto(host.origin + at)
      return (await page.locator(link).first().getAttribute('href')) ?? ''
    }
    const titleAt = async (at: string): Promise<string> => {
      await page.goto(host.origin + at)
      return (await page.locator('main h1').textContent()) ?? ''
    }
    const car = carPath ?? (await hrefOf('/cars', 'main li a[href^="/cars/"]'))
    const repair = await hrefOf(car, `main a[href^="${car}/repairs/"]`)
    return {
      carPath: car,
      carTitle: await titleAt(car),
      repairPath: repair,
      repairTitle: await titleAt(repair),
    }
  } finally {
    await end()
  }
}

function summary(of: readonly WorkshopScreens[]) {
  const cold = of.flatMap((each) => Object.entries(each.cold))
  const moved = of.flatMap(({ firstMoves, laterMoves }) => [
    ...Object.entries(firstMoves),
    ...Object.entries(laterMoves),
  ])
  const slowestCold = cold.reduce((worst, each) =>
    each[1].interactiveMs > worst[1].interactiveMs ? each : worst,
  )
  const slowestMove = moved.reduce((worst, each) => (each[1].withDataMs > worst[1].withDataMs ? each : worst))
  const p95 = (figure: (move: MoveFigures) => number) =>
    quantile(
      moved.map(([, move]) => figure(move)),
      0.95,
    )
  const initial = cold.filter(([name]) => name === 'shop floor' || name === 'day sheet')
  return {
    coldMs: slowestCold[1].interactiveMs,
    slowestCold: slowestCold[0],
    coldCpuMs: Math.max(...cold.map(([, { cpuMs }]) => cpuMs)),
    moveP95Ms: p95(({ withDataMs }) => withDataMs),
    moveP95CpuMs: p95(({ cpuMs }) => cpuMs),
    slowestMove: slowestMove[0],
    nextPaintP95Ms: p95(({ nextPaintMs }) => nextPaintMs),
    layoutShift: Math.max(
      ...cold.map(([, { shiftBefore, shiftAfter }]) => shiftBefore + shiftAfter),
      ...moved.map(([, { shift }]) => shift),
    ),
    longestTaskMs: Math.max(...of.map(({ plan }) => plan.longestTaskMs)),
    longestTaskCpuMs: Math.max(...of.map(({ plan }) => plan.longestTaskCpuMs)),
    initialKb: Math.max(...initial.map(([, { bundleKb }]) => bundleKb)),
    heapMb: Math.max(...cold.map(([, { heapMb }]) => heapMb)),
  }
}
