import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'

/** What people do who have nothing but keys. */

/** More stops than a screen has. */
const MOST_STOPS = 80

/** Goes on by Tab until the focus is there, and sees that it is shown. */
export async function tabTo(page: Page, target: Locator): Promise<void> {
  await target.waitFor()
  for (let stop = 0; stop < MOST_STOPS; stop++) {
    if (await target.evaluate((element) => element === document.activeElement)) {
      const outline = await target.evaluate((element) => getComputedStyle(element).outlineStyle)
      expect(outline).not.toBe('none')
      return
    }
    await page.keyboard.press('Tab')
  }
  throw new Error(`Tab does not lead to ${String(target)}.`)
}

export async function press(page: Page, target: Locator): Promise<void> {
  await tabTo(page, target)
  await page.keyboard.press('Enter')
}

/** Types where the focus has gone by itself, as into a code that is asked for. */
export async function typeInto(page: Page, field: Locator, words: string): Promise<void> {
  await expect.poll(() => field.evaluate((element) => element === document.activeElement)).toBe(true)
  await page.keyboard.type(words)
  await page.keyboard.press('Enter')
}
