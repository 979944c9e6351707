import { expect } from 'vitest'
import { codeDialog, comeBackWith, dialog, strips, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { codes, manager, welder } from '../support/workshop.ts'

const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }
const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

browserTest('what was done by a slip of the hand is taken back where it was done', async () => {
  const served = await serve({
    before: (workshop) => {
      const carId = bringInLarkspur(workshop)
      const gates = { sealed: photosOnly(1), primed: photosOnly(1) }
      addRepair(workshop, carId, 'Spare-wheel well', { plan: { gates }, passed: 'fabricated' })
    },
  })
  const { page } = await served.open({ size: 'phone', at: '/day-sheet' })
  await page.getByRole('button', { name: ilse.name }).click()

  // A clock: the usual reason stands there, and a manager signs.
  await page.getByRole('button', { name: /^Start work/ }).click()
  await strips(page).getByText('Done: Clock started on Spare-wheel well: sealed').waitFor()
  await page.getByRole('button', { name: 'take it back' }).click()
  const never = dialog(page, 'This never happened')
  await expect.poll(() => never.getByLabel('Why it is voided').inputValue()).toBe('Started by mistake.')
  await never.getByRole('button', { name: 'Go on to sign' }).click()
  const voiding = codeDialog(page, 'Void a fact')
  await voiding.getByText('Reason: Started by mistake.').waitFor()
  await voiding.getByLabel('Own code').fill(mara.code)
  await voiding.getByRole('button', { name: 'Void it' }).click()
  await never.waitFor({ state: 'detached' })
  await page.getByText('No clock runs.').waitFor()

  // A clock that was stopped goes on with one tap.
  await page.getByRole('button', { name: /^Start work/ }).click()
  await page.getByRole('button', { name: 'Stop clock' }).first().click()
  await strips(page).getByText('Done: Clock stopped on').waitFor()
  await page.getByRole('button', { name: 'start it again' }).click()
  await page.getByRole('button', { name: 'Stop clock' }).first().waitFor()

  // A gate asks for a reason of its own, and is open again.
  await page.getByRole('link', { name: 'Spare-wheel well' }).first().click()
  await comeBackWith(page, page.getByRole('button', { name: 'Take photos' }), await testPhotoFile('seam.jpg'))
  await page.getByText('all there').waitFor()
  await page.getByRole('button', { name: 'Sign off gate' }).click()
  await dialog(page, 'Sign off sealed').getByRole('button', { name: 'Go on to sign' }).click()
  for (const digit of ilse.code)
    await dialog(page, 'Sign off sealed').getByRole('button', { name: digit, exact: true }).click()
  await dialog(page, 'Sign off sealed').getByRole('button', { name: 'Sign sealed' }).click()
  await page.getByRole('heading', { name: 'primed is next' }).waitFor()
  await strips(page).getByText('Done: Spare-wheel well: sealed').waitFor()
  await page.getByRole('button', { name: 'take it back' }).click()
  await never.getByRole('button', { name: 'Go on to sign' }).click()
  await never.getByRole('alert').first().waitFor()
  await never.getByLabel('Why it is voided').fill('The wrong repair was signed.')
  await never.getByRole('button', { name: 'Go on to sign' }).click()
  await voiding.getByLabel('Own code').fill(mara.code)
  await voiding.getByRole('button', { name: 'Void it' }).click()
  await page.getByRole('heading', { name: 'sealed is next' }).waitFor()
})
