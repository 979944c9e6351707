import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { codeDialog, dialog, photographOpening, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { hardToUse } from '../support/every-screen.ts'
import { serve } from '../support/served.ts'
import { countTaps } from '../support/taps.ts'

const nora = { name: 'Nora Feld', code: '271828' }
/** From an empty folder to the signed gate; a field that is filled in is one tap beside what is typed into it. */
const MOST_TAPS = 34
const MOST_KEYS = 100

/** The button of the strip that leads to the next step. */
const nextStep = (page: Page, words: string) =>
  page.getByRole('region', { name: 'First steps' }).getByRole('link', { name: words }).first()

browserTest('leads from an empty folder to the first gate signed with photos', async () => {
  const served = await serve({ setUp: false })
  const { page } = await served.open()
  const taps = await countTaps(page)
  let keys = 0
  const fill = async (field: ReturnType<Page['getByLabel']>, words: string) => {
    keys += words.length
    await field.click()
    await field.fill(words)
  }

  await page.getByRole('button', { name: 'Set up your workshop' }).click()
  await fill(page.getByLabel('Name of the workshop'), 'Alder Yard')
  await fill(page.getByLabel('Name of the first manager'), nora.name)
  await fill(page.getByLabel('The manager’s own code'), nora.code)
  await fill(page.getByLabel('The code once more'), nora.code)
  await page.getByRole('button', { name: 'Set up the workshop' }).click()

  // The usual bays came with the catalogue; who else works here is asked for first.
  const strip = page.getByRole('region', { name: 'First steps' })
  await strip.getByText('First steps, 1 of 7').waitFor()
  await page.getByRole('button', { name: 'Add a person' }).click()
  const person = dialog(page, 'Add a person')
  await fill(person.getByLabel('Name'), 'Ossip Rand')
  await person.getByRole('checkbox', { name: 'sheet metal' }).check()
  await fill(person.getByLabel('First code'), '8182')
  await person.getByRole('button', { name: 'Add this person' }).click()
  await person.waitFor({ state: 'detached' })

  await nextStep(page, 'The first shell and its owner').click()
  const car = dialog(page, 'Add a car')
  await fill(car.getByLabel('Name').first(), 'Corran 5')
  await fill(car.getByLabel('Shell number'), '21/A')
  await fill(car.getByLabel('Name').nth(1), 'Ada Fell')
  await car.getByRole('radio', { name: 'in work' }).check()
  await car.getByLabel(/^First photo/).setInputFiles(await testPhotoFile('as-it-came.jpg'))
  await car.getByRole('button', { name: 'Add the car' }).click()
  await car.waitFor({ state: 'detached' })

  await nextStep(page, 'Its first repair').click()
  await page.getByRole('button', { name: 'Add a repair' }).first().click()
  const repair = dialog(page, 'Add a repair')
  await repair.getByLabel('Repair type').selectOption({ label: 'Boot floor' })
  await repair.getByRole('button', { name: 'Add the repair' }).click()
  await repair.waitFor({ state: 'detached' })

  await nextStep(page, 'What the owner agrees to').click()
  await page.getByRole('button', { name: /^The owner accepts/ }).click()
  const accept = dialog(page, 'Corran 5: the owner accepts').first()
  await accept.getByRole('button', { name: 'Go on to sign' }).click()
  const agreed = codeDialog(page, 'Corran 5: the owner accepts')
  await fill(agreed.getByLabel('Own code'), nora.code)
  await agreed.getByRole('button', { name: 'Sign', exact: true }).click()
  await accept.waitFor({ state: 'detached' })

  await nextStep(page, 'The first gate, signed').click()
  await photographOpening(page)
  await page.getByRole('button', { name: 'Sign off gate' }).click()
  const signing = dialog(page, 'Sign off opened')
  await signing.getByRole('button', { name: 'Go on to sign' }).click()
  await fill(codeDialog(page, 'Sign off opened').getByLabel('Own code'), nora.code)
  await codeDialog(page, 'Sign off opened').getByRole('button', { name: 'Sign opened' }).click()
  await page.getByRole('heading', { name: 'assessed is next' }).waitFor()

  const toTheGate = await taps()
  await page.getByRole('button', { name: 'clock in here' }).click()
  await page.getByText('Nora Feld, on this since').waitFor()
  console.info(`From an empty folder to the first signed gate: ${toTheGate} taps and ${keys} keys.`)
  expect(toTheGate).toBeLessThanOrEqual(MOST_TAPS)
  expect(toTheGate).toBeGreaterThan(20)
  expect(keys).toBeLessThanOrEqual(MOST_KEYS)

  // Done, the steps are gone from every screen.
  await page.getByRole('link', { name: 'Shop floor' }).click()
  await page.getByRole('heading', { level: 1, name: 'Shop floor' }).waitFor()
  await strip.waitFor({ state: 'detached' })
})

browserTest('the first steps fit under a thumb, and stay put away on a device', async () => {
  const served = await serve({ before: (workshop) => workshop.addCar('Larkspur 4', 'S-101') })
  const { page } = await served.open({ size: 'phone', at: '/cars' })
  const strip = page.getByRole('region', { name: 'First steps' })
  await strip.getByText('First steps, 3 of 7').waitFor()
  await strip.getByRole('button', { name: 'all of them' }).click()
  await strip.getByRole('listitem').getByText('A clock on it').waitFor()
  expect(await hardToUse(page)).toEqual([])

  await strip.getByRole('link', { name: 'The first shell and its owner' }).click()
  await dialog(page, 'Add a car').getByRole('button', { name: 'Cancel' }).click()
  await strip.getByRole('button', { name: 'put away the first steps' }).click()
  await page.reload()
  await page.getByRole('link', { name: 'Larkspur 4' }).waitFor()
  await strip.waitFor({ state: 'detached' })
})
