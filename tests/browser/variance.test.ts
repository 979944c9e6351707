import { readFile } from 'node:fs/promises'
import { expect } from 'vitest'
import { entryIdSchema } from '../../domain/ids.ts'
import { onGate } from '../support/car-builder.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { welder } from '../support/workshop.ts'

browserTest(
  'the manager follows a loss from its sentence down to the single entry, and saves it',
  async () => {
    const served = await serve({
      before: (workshop) => {
        const carId = bringInLarkspur(workshop)
        addRepair(workshop, carId, 'Boot floor')
        const on = { kind: 'work' as const, targets: [onGate('Boot floor', 'fabricated')] }
        const time = { kind: 'day' as const, date: '2026-11-20', hours: 20 }
        const entry = { entryId: entryIdSchema.parse('entry-long'), personId: welder, on, time }
        workshop.run(
          'logTime',
          { ...entry, hotWork: false, cause: null, shares: null, note: 'the channel was gone' },
          { carId, by: welder },
        )
      },
    })
    const { page } = await served.open({ at: '/variance' })
    const loss = page.getByRole('link', { name: /^Fabricated takes .* more than/ })
    await loss.click()
    await page.getByRole('heading', { name: 'fabricated', exact: true }).waitFor()
    await page.getByRole('heading', { name: '1 time entry save as CSV' }).waitFor()
    const entry = page.getByRole('row', { name: /the channel was gone/ })
    await expect
      .poll(() => entry.getByRole('cell').allTextContents())
      .toEqual(['not shown', '20.00 h', 'Boot floor: fabricated', 'the channel was gone'])
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('link', { name: 'save as CSV' }).click(),
    ])
    expect(file.suggestedFilename()).toBe('Time entries Larkspur 4.csv')
    expect(await readFile(await file.path(), 'utf8')).toContain('2026-11-20,,Boot floor: fabricated,20,20')

    // Back, and to the car with its curves.
    await page.getByRole('link', { name: '‹ all gates' }).click()
    await page.getByRole('link', { name: 'Cars', exact: true }).last().click()
    await page.locator('main').getByRole('link', { name: 'Larkspur 4' }).click()
    await page.getByRole('img', { name: /spent of .* authorised/ }).waitFor()
  },
)
