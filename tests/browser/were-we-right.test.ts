import { expect } from 'vitest'
import { openDatabase } from '../../db/open-database.ts'
import { readCar } from '../../db/reads.ts'
import { carIdSchema, typeIdSchema } from '../../domain/ids.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import { dialog, giveManagersCode } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { repairId } from '../support/car-builder.ts'
import { reachOut } from '../support/every-screen.ts'
import { finishRepair } from '../support/finish-repair.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { repairPlan } from '../support/plans.ts'
import { serve } from '../support/served.ts'

const typeId = typeIdSchema.parse('type-floor-edge')

browserTest(
  'the manager looks how right the hours were, and takes learned ones for a new repair',
  async () => {
    const served = await serve({
      before: (workshop) => {
        const carId = bringInLarkspur(workshop)
        const names = ['Boot floor', 'Sill', 'Arch', 'Scuttle', 'Gutter']
        workshop.run('saveType', { typeId, plan: repairPlan('Floor edge') })
        for (const name of names) addRepair(workshop, carId, name, { type: { typeId, version: 1 } })
        for (const [at, name] of names.entries())
          finishRepair(workshop, carId, repairId(name), at === 0 ? 60 : 16)
      },
    })
    const { page } = await served.open({ at: '/variance' })
    await page.getByRole('link', { name: 'Were we right' }).click()
    await page.getByRole('heading', { name: 'The last 5 finished repairs' }).waitFor()
    await page.getByText('5 repairs are finished of which hours were said').waitFor()
    await page.getByText('80 % figures held for 4 of 5: too few to tell').first().waitFor()
    const drawing = page.getByRole('img', {
      name: /^5 repairs in the order of finishing: .* 1 over the 80 % figure/,
    })
    await drawing.waitFor()
    await page.getByRole('link', { name: 'Boot floor; Larkspur 4' }).waitFor()
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      expect(await violations(page)).toEqual([])
    }

    await page.getByLabel('said once assessed').focus()
    await page.keyboard.press('Space')
    await page.getByText('5 more repairs are finished of which no hours were said once assessed.').waitFor()
    await expect.poll(() => new URL(page.url()).searchParams.get('when')).toBe('assessed')
    await page.setViewportSize({ width: 390, height: 844 })
    expect(await reachOut(page)).toEqual([])

    await page.setViewportSize({ width: 1280, height: 800 })
    await page.goto(new URL('/cars/car-s-101', served.url).href)
    await page.getByRole('button', { name: 'Add a repair' }).click()
    const adding = dialog(page, 'Add a repair')
    await adding.getByLabel('Repair type').selectOption({ label: 'Floor edge' })
    await adding.getByText('8.0 to 24.0 h', { exact: false }).first().waitFor()
    await adding.getByLabel('Take the hours of 5 finished floor edges').check()
    await adding.getByRole('button', { name: 'Add the repair' }).click()
    await giveManagersCode(page)
    await adding.waitFor({ state: 'detached' })
    const db = openDatabase(served.dataDir, { readonly: true })
    const added = [...(readCar(db, carIdSchema.parse('car-s-101'))?.repairs.values() ?? [])].at(-1)
    db.close()
    // Four took 16 h on fabricated and one 60 h, where the type expects 2 h; no other gate took any.
    expect(expectedHours(added!.plan.gates.fabricated.hours)).toBeGreaterThan(16)
    expect(expectedHours(added!.plan.gates.opened.hours)).toBe(2)
    expect(added!.taken).toMatchObject({ repairs: 5 })
  },
)
