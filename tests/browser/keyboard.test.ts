import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import { dialog, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { noAsks } from '../support/plans.ts'
import { serve } from '../support/served.ts'
import { codes, welder } from '../support/workshop.ts'

/** More stops than a screen has. */
const MOST_STOPS = 80

/** Goes on by Tab until the focus is there, and sees that it is shown. */
async function tabTo(page: Page, target: Locator): Promise<void> {
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

async function press(page: Page, target: Locator): Promise<void> {
  await tabTo(page, target)
  await page.keyboard.press('Enter')
}

browserTest('the main job is done by keyboard alone', async () => {
  const conditions = { minMarginC: 3, maxHumidityPercent: null, minAirC: null, maxAirC: null }
  const served = await serve({
    before: (workshop) => {
      const plan = { gates: { primed: { asks: { ...noAsks, photos: 1, conditions } } } }
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan, passed: 'sealed' })
    },
  })
  const { page } = await served.open({ at: '/day-sheet' })
  const button = (name: string | RegExp) => page.getByRole('button', { name })

  // The first stop leads past the navigation.
  await page.getByRole('heading', { level: 1 }).waitFor()
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await press(page, button('Ilse Brandt'))
  await press(page, button('Clock in'))
  await button('Stop clock').first().waitFor()
  await press(page, page.getByRole('link', { name: 'Boot floor' }))
  await page.getByRole('heading', { name: 'primed is next' }).waitFor()

  // Listened for well before the key: Chromium hands choosers over only once it has been told to.
  const chooser = page.waitForEvent('filechooser')
  await tabTo(page, button(/^Take photos/))
  await page.keyboard.press('Enter')
  await (await chooser).setFiles(await testPhotoFile('primed.jpg'))
  await page.getByText('1 of 1').waitFor()

  await press(page, button(/Air temperature/))
  const reading = dialog(page, 'Conditions for primed')
  for (const [label, figure] of [
    ['Air', '20'],
    ['Humidity', '50'],
    ['Steel', '18'],
  ] as const) {
    await tabTo(page, reading.getByLabel(label))
    await page.keyboard.type(figure)
  }
  await page.keyboard.press('Enter')
  await reading.waitFor({ state: 'detached' })

  await press(page, button(/^Sign off gate/))
  await press(page, dialog(page, 'Sign off primed').getByRole('button', { name: 'Go on to sign' }))
  // The code is asked for where the focus is.
  const code = dialog(page, 'Sign off primed').getByLabel('Own code')
  await expect.poll(() => code.evaluate((element) => element === document.activeElement)).toBe(true)
  await page.keyboard.type(codes[welder] ?? '')
  await page.keyboard.press('Enter')
  await page.getByRole('heading', { name: 'trial-fitted is next' }).waitFor()

  // Escape closes what was opened, and the focus is back where it was.
  await press(page, button(/^Sign off gate/))
  await dialog(page, 'Sign off trial-fitted').waitFor()
  await page.keyboard.press('Escape')
  await dialog(page, 'Sign off trial-fitted').waitFor({ state: 'detached' })
  await expect
    .poll(() => button(/^Sign off gate/).evaluate((element) => element === document.activeElement))
    .toBe(true)
})
