import { describe, expect } from 'vitest'
import { dialog, giveManagersCode, sign } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { codes, manager } from '../support/workshop.ts'

const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

describe('money', () => {
  browserTest(
    'has its rates set, and a cost of a car is estimated, taken off, accepted, spent and voided',
    async () => {
      const served = await serve({
        before: (workshop) => {
          addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
        },
      })
      const { page } = await served.open({ at: '/workshop?sheet=rates' })
      await page.getByText('Money is shown to managers only').waitFor()
      await page.locator('main').getByRole('button', { name: 'Manager: sign in' }).click()
      await giveManagersCode(page)
      await page.getByRole('button', { name: 'Set rates' }).click()
      const rates = dialog(page, 'Set rates')
      await rates.getByLabel('Usual rate').fill('60,125')
      await rates.getByRole('button', { name: 'Set these rates' }).click()
      await rates.getByText('Amounts in EUR have at most 2 decimals.').waitFor()
      await rates.getByLabel('Usual rate').fill('60,50')
      await rates.getByRole('button', { name: 'Set these rates' }).click()
      await page.getByRole('heading', { name: '€60.50 an hour since Mon 23 Nov' }).waitFor()

      // Sixteen hours were accepted today.
      await page.goto(new URL('/cars/car-s-101?sheet=money', served.url).href)
      await page.getByText('€0.00 of €968.00').waitFor()
      await page.getByRole('button', { name: 'Add a cost' }).click()
      const add = dialog(page, 'Add a cost')
      await add.getByLabel('What').fill('Rear panel')
      await add.getByLabel('For').selectOption('Boot floor')
      await add.getByLabel('Estimated').fill('420')
      await add.getByRole('button', { name: 'Add it to the estimate' }).click()
      await page.getByRole('button', { name: 'Add a cost' }).click()
      await add.getByLabel('What').fill('Spare trim')
      await add.getByLabel('Estimated').fill('35')
      await add.getByRole('button', { name: 'Add it to the estimate' }).click()
      await page.getByRole('button', { name: 'change Spare trim' }).click()
      await dialog(page, 'Spare trim').getByRole('button', { name: 'take it off the estimate' }).click()
      await page.getByRole('button', { name: 'The owner accepts €420.00' }).click()
      await dialog(page, 'Larkspur 4: the owner accepts').getByText('Rear panel, €420.00').waitFor()
      await page.getByRole('button', { name: 'Go on to sign' }).click()
      await sign(page, 'Larkspur 4: the owner accepts', mara)
      await page.getByText('€0.00 of €1,388.00').waitFor()
      await page.getByRole('button', { name: 'change Rear panel' }).click()
      const accepted = dialog(page, 'Rear panel')
      await accepted.getByText('Without tax. 0 when it is no longer needed.').waitFor()
      await accepted.getByRole('button', { name: 'take it off the estimate' }).waitFor({ state: 'detached' })
      await accepted.getByRole('button', { name: 'Cancel' }).click()

      await page.getByRole('button', { name: 'Enter what was spent' }).click()
      const spend = dialog(page, 'What was spent')
      await spend.getByLabel('Agreed as').selectOption({ label: 'Rear panel, €420.00' })
      await spend.getByLabel('Amount').fill('450')
      await spend.getByRole('button', { name: 'Enter it' }).click()
      await page.getByText('€450.00 of €1,388.00').waitFor()
      await page.getByText('The owner is asked for €420.00 so far.').waitFor()
      await page.getByText('€30.00 more went beyond what the owner has authorised').waitFor()

      await page.getByRole('button', { name: 'void Rear panel' }).click()
      const reason = dialog(page, 'This was never spent')
      await reason.getByLabel('Why it is voided').fill('The bill of another car.')
      await reason.getByRole('button', { name: 'Go on to sign' }).click()
      await sign(page, 'Void what was spent', mara, 'Void it')
      await page.getByText('€0.00 of €1,388.00').waitFor()
      await page.getByText('No bill and nothing from the shelf is entered yet.').waitFor()

      // Who else pays is named when it is known.
      const openAgreed = async () => {
        await page.getByRole('button', { name: 'Change', exact: true }).click()
        await page.getByRole('menuitem', { name: 'Promised date, priority, charge, insurer' }).click()
        return dialog(page, 'What was agreed')
      }
      const agreed = await openAgreed()
      await agreed.getByLabel('Insurer').selectOption('somebody new')
      await agreed.getByRole('button', { name: 'Change it' }).click()
      await agreed.getByRole('alert').waitFor()
      await agreed.getByLabel('Name of the insurer').fill('Fen Cover')
      await agreed.getByRole('button', { name: 'Change it' }).click()
      await agreed.waitFor({ state: 'detached' })
      const again = await openAgreed()
      await again.getByLabel('Insurer').getByText('Fen Cover').waitFor({ state: 'attached' })
      await expect
        .poll(() => again.getByLabel('Insurer').locator('option:checked').textContent())
        .toBe('Fen Cover')
    },
  )
})
