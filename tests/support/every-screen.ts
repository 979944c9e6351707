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
  const [out, small] = await Promise.all([reachOut(page), tooSmall(page)])
  return [...out.map((element) => `reaches out: ${element}`), ...small]
}

/** A finger's width, less what rounding takes. */
const FINGER_PX = 47.5

/**
 * Controls that are smaller than a finger. A box with a label is as large as its label, a link that reaches beyond its words
 * as what it reaches over. Links inside a sentence are exempt (WCAG 2.5.8), and so are the blocks of the drawn plan, which
 * its list offers in full size.
 */
function tooSmall(page: Page): Promise<readonly string[]> {
  return page.evaluate((least) => {
    const sizeOf = (control: Element): { readonly width: number; readonly height: number } => {
      const area = (control.matches('input') ? control.closest('label') : null) ?? control
      const { width, height } = area.getBoundingClientRect()
      const over = getComputedStyle(control, '::after')
      if (over.position !== 'absolute') return { width, height }
      return {
        width: Math.max(width, parseFloat(over.width)),
        height: Math.max(height, parseFloat(over.height)),
      }
    }
    const isInSentence = (control: Element): boolean =>
      control.matches('a') &&
      getComputedStyle(control).display === 'inline' &&
      [...(control.parentElement?.childNodes ?? [])].some(
        (node) => node.nodeType === Node.TEXT_NODE && (node.textContent ?? '').trim().length > 2,
      )
    return [...document.querySelectorAll('a[href], button, input, select, textarea, [role="menuitem"]')]
      .filter((control) => control.checkVisibility({ visibilityProperty: true }))
      .filter((control) => !control.matches('.skip, [data-key]') && !isInSentence(control))
      .flatMap((control) => {
        const { width, height } = sizeOf(control)
        if (width === 0 || (width >= least && height >= least)) return []
        const words = (control.getAttribute('aria-label') ?? control.textContent ?? '').trim().slice(0, 40)
        return [
          `too small for a finger, ${Math.round(width)} x ${Math.round(height)}: ${control.tagName} '${words}'`,
        ]
      })
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
