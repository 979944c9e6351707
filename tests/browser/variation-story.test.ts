import { describe, expect } from 'vitest'
import { findingIdSchema, taskIdSchema } from '../../domain/ids.ts'
import { dialog, sign, signIn } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { repairId } from '../support/car-builder.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { textOfPdf } from '../support/pdf-text.ts'
import { repairPlan, taskPlan } from '../support/plans.ts'
import { serve } from '../support/served.ts'
import { codes, manager, welder, type Workshop } from '../support/workshop.ts'

const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

/** A boot floor that is assessed and holed, and whose new metal is planned longer than its owner has agreed to. */
function withHoledFloor(workshop: Workshop): void {
  const carId = bringInLarkspur(workshop)
  const id = addRepair(workshop, carId, 'Boot floor', { passed: 'assessed' })
  workshop.run(
    'addFinding',
    {
      findingId: findingIdSchema.parse('finding-holed'),
      repairId: id,
      layerId: null,
      kind: 'corrosion',
      grade: 'holed',
      extent: '240 mm along the flange',
      needs: 'a section 240 mm longer',
      attachments: [],
    },
    { carId, by: welder },
  )
  workshop.run(
    'addTask',
    { taskId: taskIdSchema.parse('task-water'), plan: taskPlan('Water test') },
    { carId },
  )
  const hours = { shortest: 6, likely: 8, longest: 13 }
  const plan = repairPlan('Boot floor', { gates: { fabricated: { hours } } })
  workshop.run(
    'changeRepair',
    { repairId: id, plan, typeVersion: null, reason: 'A longer section.' },
    { carId },
  )
}

describe('work beyond what is agreed', () => {
  browserTest(
    'is drafted, changed, raised, answered with changes and printed; that of a task is raised from its line',
    async () => {
      const served = await serve({ before: withHoledFloor })
      const { page } = await served.open({
        size: 'tablet',
        at: `/cars/car-s-101/repairs/${repairId('Boot floor')}`,
      })
      await signIn(page)
      await page.getByText('The work goes beyond what is agreed, most likely by 6.5 h.').waitFor()
      await page.getByRole('button', { name: 'Draft a variation' }).click()

      const raise = dialog(page, 'Raise a variation on Boot floor')
      await expect
        .poll(() => raise.getByLabel('What it is about').inputValue())
        .toBe('Boot floor: a section 240 mm longer')
      await raise.getByRole('checkbox', { name: 'the repair: corrosion, holed', checked: true }).waitFor()
      await expect.poll(() => raise.getByLabel('fabricated, likely').inputValue()).toBe('6.5')
      await raise.getByLabel('fabricated, low').fill('9')
      await raise.getByRole('button', { name: 'Raise it' }).click()
      await raise.getByText('Low is more than likely: at most 6.5 h.').waitFor()
      expect(await violations(page)).toEqual([])
      await raise.getByLabel('fabricated, low').fill('5')
      await raise.getByLabel('fabricated, likely').fill('6')
      await raise.getByRole('button', { name: 'Add a cost' }).click()
      await raise.getByLabel('What', { exact: true }).fill('Sheet 1.6 mm')
      await raise.getByLabel('Costs, without tax').fill('45.50')
      await raise.getByText('5.0 to 11.0 h').waitFor()
      await raise.getByText('€45.50', { exact: true }).waitFor()
      await raise.getByRole('button', { name: 'Raise it' }).click()
      await raise.waitFor({ state: 'detached' })
      await page.getByText("'Boot floor: a section 240 mm longer' waits for the owner's answer.").waitFor()
      await page.getByRole('button', { name: 'Draft a variation' }).waitFor({ state: 'detached' })

      await page.goto(new URL('/owner-decisions', served.url).href)
      await page.getByRole('button', { name: 'With changes' }).click()
      const answer = dialog(page, /^The owner answers/)
      await answer.getByLabel('Boot floor: fabricated').fill('4')
      await answer.getByLabel('Sheet 1.6 mm').fill('40')
      expect(await violations(page)).toEqual([])
      await answer.getByRole('button', { name: 'Go on to sign' }).click()
      await sign(page, 'The owner accepted with changes', mara)
      await page.getByRole('button', { name: 'Boot floor: a section 240 mm longer' }).click()
      await page.getByText('asked 6.0 h, accepted 4.0 h').first().waitFor()
      await page.getByText('asked €45.50, accepted €40.00').waitFor()

      const href = await page.getByRole('link', { name: /^print it for the owner/ }).getAttribute('href')
      const printed = await page.request.get(new URL(href ?? '', served.url).href)
      expect(printed.headers()['content-type']).toBe('application/pdf')
      const text = textOfPdf(new Uint8Array(await printed.body())).replaceAll('\n', ' ')
      expect(text).toContain('4 hours instead of 6 hours')

      await page.goto(new URL('/cars/car-s-101', served.url).href)
      await page.getByRole('button', { name: 'more about Water test' }).click()
      await page.getByRole('menuitem', { name: 'Raise a variation' }).click()
      const task = dialog(page, 'Raise a variation on Water test')
      await task.getByLabel('What it is about').fill('Second water test')
      await task.getByLabel('Why').fill('The tailgate leaked at its upper corner.')
      await task.getByRole('button', { name: 'Raise it' }).click()
      await task.getByText('Give a figure.').waitFor()
      await task.getByLabel('likely').fill('3')
      await task.getByLabel('high').fill('2')
      await task.getByText('High is less than likely: at least 3 h.').waitFor()
      expect(await violations(page)).toEqual([])
      await task.getByLabel('high').fill('5')
      await task.getByRole('button', { name: 'Raise it' }).click()
      await task.waitFor({ state: 'detached' })
      await page.goto(new URL('/owner-decisions', served.url).href)
      await page.getByText('Second water test').first().waitFor()
    },
  )
})
