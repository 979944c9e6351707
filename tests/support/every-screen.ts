import type { Page } from 'playwright-core'
import { CAR_SHEETS } from '../../renderer/parts/sheets/car-sheets.ts'
import { WORKSHOP_SHEETS } from '../../renderer/parts/sheets/workshop-sheets.ts'

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
    '/help',
    '/help?of=repair',
    '/help?of=car%2Festimate',
    '/help?of=safety',
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

/** Below this, a shift is a fraction of a pixel. */
const LEAST_SHIFT = 0.001

/** What has moved, without anybody's doing, since the page began. */
export function jumps(page: Page): Promise<readonly string[]> {
  return page.evaluate(async (least) => {
    const shifts = await new Promise<readonly PerformanceEntry[]>((resolve) => {
      new PerformanceObserver((list) => resolve(list.getEntries())).observe({
        type: 'layout-shift',
        buffered: true,
      })
      // Nobody is told of none.
      setTimeout(() => resolve([]), 100)
    })
    return (shifts as readonly (PerformanceEntry & LayoutShift)[])
      .filter(({ value, hadRecentInput }) => value >= least && !hadRecentInput)
      .map(({ value, sources }) => {
        const moved = sources.map(({ node }) => node?.textContent?.trim().slice(0, 30) ?? 'what is gone')
        return `jumps by ${value.toFixed(4)}: ${moved.join(', ')}`
      })
  }, LEAST_SHIFT)
}

/** As Chromium tells of it; the types of the DOM do not know it yet. */
interface LayoutShift {
  readonly value: number
  readonly hadRecentInput: boolean
  readonly sources: readonly { readonly node: Node | null }[]
}

/** What a finger has trouble with on the page as it is: what reaches out of the screen, and controls that are too small. */
export async function hardToUse(page: Page): Promise<readonly string[]> {
  const [out, fingers] = await Promise.all([reachOut(page), hardToHit(page)])
  return [...out.map((element) => `reaches out: ${element}`), ...fingers]
}

/** A finger's width, less what rounding takes. */
const FINGER_PX = 47.5

/**
 * Controls that are smaller than a finger, and those that take a part of its room from one another. A box with a label is as
 * large as its label, a link that reaches beyond its words as what it reaches over. The blocks of the drawn plan are exempt, as
 * its list offers them in full size (WCAG 2.5.8). What stands still while the page scrolls lies over it by intent.
 */
function hardToHit(page: Page): Promise<readonly string[]> {
  return page.evaluate((least) => {
    const areaOf = (control: Element): Element =>
      (control.matches('input') ? control.closest('label') : null) ?? control
    const roomOf = (control: Element): DOMRect => {
      const { x, y, width, height } = areaOf(control).getBoundingClientRect()
      const over = getComputedStyle(control, '::after')
      if (over.position !== 'absolute') return new DOMRect(x, y, width, height)
      const reach = {
        width: Math.max(width, parseFloat(over.width)),
        height: Math.max(height, parseFloat(over.height)),
      }
      return new DOMRect(
        x + (width - reach.width) / 2,
        y + (height - reach.height) / 2,
        reach.width,
        reach.height,
      )
    }
    const standsStill = (element: Element | null): Element | null =>
      element === null || ['fixed', 'sticky'].includes(getComputedStyle(element).position)
        ? element
        : standsStill(element.parentElement)
    const words = (control: Element) =>
      `${control.tagName} '${(control.getAttribute('aria-label') ?? control.textContent ?? '').trim().slice(0, 40)}'`
    const controls = [
      ...document.querySelectorAll(
        'a[href], button, input, select, textarea, summary, [role="menuitem"], [role="button"]',
      ),
    ]
      .filter((control) => control.checkVisibility({ visibilityProperty: true }))
      .filter((control) => !control.matches('.skip, [data-key]'))
      .map((control) => ({ control, room: roomOf(control), on: standsStill(control) }))
      .filter(({ room }) => room.width > 0)
    const small = controls
      .filter(({ room }) => room.width < least || room.height < least)
      .map(
        ({ control, room }) =>
          `too small for a finger, ${Math.round(room.width)} x ${Math.round(room.height)}: ${words(control)}`,
      )
    const shared = controls.flatMap((one, index) =>
      controls.slice(index + 1).flatMap((other) => {
        const across = Math.min(one.room.right, other.room.right) - Math.max(one.room.x, other.room.x)
        const down = Math.min(one.room.bottom, other.room.bottom) - Math.max(one.room.y, other.room.y)
        if (across <= 1 || down <= 1 || one.on !== other.on) return []
        const [mine, theirs] = [areaOf(one.control), areaOf(other.control)]
        if (mine.contains(theirs) || theirs.contains(mine)) return []
        return [
          `${words(one.control)} and ${words(other.control)} share ${Math.round(across)} x ${Math.round(down)}`,
        ]
      }),
    )
    return [...small, ...shared]
  }, FINGER_PX)
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
