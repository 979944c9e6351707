import type { Page } from 'playwright-core'
import { CAR_SHEETS } from '../../renderer/parts/car-sheets.ts'
import { WORKSHOP_SHEETS } from '../../renderer/parts/workshop-sheets.ts'

const planSheets = ['drawing', 'list', 'list&by=bays', 'list&by=cars', 'what-if']

/** The path of every screen with all its sheets: of two cars, and of three repairs that wait for the person at the device. */
export async function everyScreen(page: Page, origin: string): Promise<readonly string[]> {
  const paths = async (at: string, pattern: RegExp) => {
    await show(page, new URL(at, origin).href)
    const hrefs = await page
      .locator('main a')
      .evaluateAll((links) => links.map((link) => link.getAttribute('href') ?? ''))
    const found = [...new Set(hrefs.filter((href) => pattern.test(href)))]
    if (found.length < 2) throw new Error(`There are too few links on ${at} to be looked at.`)
    return found
  }
  const cars = await paths('/cars', /^\/cars\/[^/?]+$/)
  const repairs = await paths('/day-sheet', /^\/cars\/[^/]+\/repairs\/[^/?]+$/)
  return [
    '/shop-floor',
    ...planSheets.map((sheet) => `/plan?sheet=${sheet}`),
    '/day-sheet',
    '/cars',
    ...CAR_SHEETS.map((sheet) => `${cars[0]}?sheet=${sheet}`),
    ...cars.slice(-1),
    '/card',
    ...repairs.slice(0, 3),
    '/owner-decisions',
    '/variance',
    '/variance?by=car&as=table',
    '/variance?by=gate&key=fabricated',
    '/variance/were-we-right',
    '/owner-reports',
    ...WORKSHOP_SHEETS.map((sheet) => `/workshop?sheet=${sheet}`),
  ]
}

/** Goes to an address and waits until everything that the screen reads is there. */
export async function show(page: Page, address: string): Promise<void> {
  await page.goto(address)
  await page.getByRole('heading', { level: 1 }).waitFor()
  await page.waitForFunction(() => {
    const isReading = document.body.textContent?.includes('Reading…')
    return !isReading && [...document.images].every((image) => image.complete || image.loading === 'lazy')
  })
}

/** Whether one can scroll sideways, and the elements that reach out of the screen. */
export function reachOut(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const { scrollWidth, clientWidth } = document.documentElement
    if (scrollWidth <= clientWidth) return []
    return [...document.querySelectorAll('main *')]
      .filter((element) => element.getBoundingClientRect().right > clientWidth + 1)
      .map((element) => `${element.tagName.toLowerCase()}.${element.className}`)
      .concat('the page')
      .slice(0, 5)
  })
}
