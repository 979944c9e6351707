import { readFileSync } from 'node:fs'
import { describe, expect } from 'vitest'
import { dialog, giveManagersCode, PRINTED } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { textOfPdf } from '../support/pdf-text.ts'
import { serve } from '../support/served.ts'

describe('the estimate before opening', () => {
  browserTest('takes a grade in one tap at the car, shows what it may hide, and is printed', async () => {
    const served = await serve({
      before: (workshop) => {
        const carId = bringInLarkspur(workshop)
        addRepair(workshop, carId, 'Boot floor', { accepted: false })
      },
    })
    const { page } = await served.open({ size: 'phone', at: '/cars/car-s-101?sheet=estimate' })
    await page.getByText(/^Half the time [\d.]+ h or less; four times in five [\d.]+ h or less\.$/).waitFor()
    await page
      .getByRole('img', { name: /^Proposed 16\.0 h\. Half the time/ })
      .first()
      .waitFor()
    await page.getByText('right rear; before opening, not looked at yet').click()

    const grades = page.getByRole('group', { name: 'Grade of Boot floor from outside' })
    await grades.getByRole('button', { name: 'pitted' }).click()
    await dialog(page, 'Who is at this device?').getByRole('button', { name: 'Ilse Brandt' }).click()
    await grades.getByRole('button', { name: 'pitted', pressed: true }).waitFor()
    await page.getByText(/^Now: pitted, said by Ilse Brandt on Mon 23 Nov/).waitFor()
    const leastSide = async () => {
      const box = await grades.getByRole('button', { name: 'gone' }).boundingBox()
      return Math.min(box?.width ?? 0, box?.height ?? 0)
    }
    await expect.poll(leastSide).toBeGreaterThanOrEqual(48)

    // The prior of 'pitted' outside, as nothing is finished here yet.
    const likely = page.getByRole('list', { name: 'How likely each grade of inner panel is' })
    await expect
      .poll(() => likely.getByRole('listitem').allInnerTexts())
      .toEqual([
        expect.stringMatching(/sound\s+3 %/),
        expect.stringMatching(/surface\s+10 %/),
        expect.stringMatching(/pitted\s+37 %/),
        expect.stringMatching(/holed\s+40 %/),
        expect.stringMatching(/gone\s+10 %/),
      ])
    await page.getByText('No such repairs graded pitted from outside are finished yet').waitFor()
    await page.getByText(/not seen yet: inner panel; \d+ to \d+ h\./).waitFor()

    const saved = page.waitForEvent('download', PRINTED)
    await page.getByRole('button', { name: 'Print it for the owner' }).click()
    await giveManagersCode(page)
    const printed = await saved
    expect(printed.suggestedFilename()).toBe('Estimate Larkspur 4- shell S-101.pdf')
    const text = textOfPdf(readFileSync(await printed.path()))
    expect(text).toContain('Dear R. Okafor,')
    expect(text).toContain('What we do not know yet')
  })
})
