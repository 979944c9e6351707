import { expect } from 'vitest'
import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import { dialog, PRINTED, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { press, tabTo, typeInto } from '../support/by-keys.ts'
import { addRepair, bringInLarkspur, withOwnerAsked } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { codes, manager, welder } from '../support/workshop.ts'

browserTest("a technician's main job is done by keyboard alone", async () => {
  const conditions = { minMarginC: 3, maxHumidityPercent: null, minAirC: null, maxAirC: null }
  const served = await serve({
    before: (workshop) => {
      const plan = { gates: { primed: { asks: { ...ASKS_NOTHING, photos: 1, conditions } } } }
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
  await typeInto(page, dialog(page, 'Sign off primed').getByLabel('Own code'), codes[welder] ?? '')
  await page.getByRole('heading', { name: 'trial-fitted is next' }).waitFor()

  // Escape closes what was opened, and the focus is back where it was.
  await press(page, button(/^Sign off gate/))
  const signing = dialog(page, 'Sign off trial-fitted')
  await signing.waitFor()
  await expect.poll(() => signing.evaluate((element) => element.contains(document.activeElement))).toBe(true)
  await page.keyboard.press('Escape')
  await signing.waitFor({ state: 'detached' })
  await expect
    .poll(() => button(/^Sign off gate/).evaluate((element) => element === document.activeElement))
    .toBe(true)
})

/** A first plan, begun after two quiet seconds; most of it is for a busy machine. */
const PLANNED_MS = 60_000
/** Planning and printing are in it. */
const MANAGER_MS = 240_000

// A stay is carried on the drawn plan by keys in plan.test.ts.
browserTest("a manager's main job is done by keyboard alone", { timeout: MANAGER_MS }, async () => {
  const served = await serve({ before: withOwnerAsked })
  const { page } = await served.open({ at: '/shop-floor' })
  const button = (name: string | RegExp) => page.getByRole('button', { name })
  const code = codes[manager] ?? ''
  await press(page, page.getByRole('button', { name: 'manager: sign in', exact: true }))
  await typeInto(page, dialog(page, "The manager's code").getByLabel('Code'), code)
  await page.getByText('Signed in:').waitFor()

  await page.keyboard.press('Alt+2')
  const proposal = page.getByRole('region', { name: 'A newer plan' })
  const take = proposal.getByRole('button', { name: 'Take it', disabled: false })
  await take.waitFor({ timeout: PLANNED_MS })
  await press(page, take)
  await proposal.waitFor({ state: 'detached' })

  await page.keyboard.press('Alt+1')
  await press(page, button('Book a car into a bay'))
  const booking = dialog(page, 'Book a car into a bay')
  await tabTo(page, booking.getByLabel('Car'))
  await page.keyboard.type('Larkspur')
  await tabTo(page, booking.getByLabel('Bay'))
  await page.keyboard.type('Jig')
  await press(page, booking.getByRole('button', { name: 'Book it' }))
  await page.getByText(/^Larkspur 4 in Jig/).waitFor()

  await page.keyboard.press('Alt+5')
  await press(page, button('Accepted'))
  const answer = dialog(page, /^The owner answers/)
  await press(page, answer.getByRole('button', { name: 'Go on to sign' }))
  await typeInto(page, dialog(page, 'The owner accepted').getByLabel('Own code'), code)
  await page.getByRole('button', { name: 'A longer section' }).waitFor()

  await page.keyboard.press('Alt+7')
  await press(page, button('Issue it'))
  await press(page, dialog(page, /^Issue report 1/).getByRole('button', { name: 'Issue it' }))
  await page.getByRole('link', { name: 'Open the PDF' }).waitFor(PRINTED)
})
