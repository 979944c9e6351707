import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { expect, onTestFinished } from 'vitest'
import { visitIdSchema } from '../../domain/ids.ts'
import { carFileWorkshopSchema } from '../../domain/report/car-file-shapes.ts'
import { readBag } from '../../electron/bag/read-bag.ts'
import { dialog, giveManagersCode, PRINTED } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { BAG_LIMITS } from '../support/bags.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'

browserTest(
  'a car that is handed over is offered its file, which is saved with what was ticked',
  async () => {
    const served = await serve({
      before: (workshop) => {
        const visit = { visitId: visitIdSchema.parse('visit-s-101'), status: 'finished', reason: '' } as const
        workshop.run('setVisitStatus', visit, { carId: workshop.addCar() })
      },
    })
    const { page } = await served.open({ at: '/cars/car-s-101' })
    const folder = mkdtempSync(join(tmpdir(), 'handed-over-'))
    onTestFinished(() => rmSync(folder, { recursive: true }))

    await page.getByRole('button', { name: 'Change', exact: true }).click()
    await page.getByRole('menuitem', { name: 'How far the visit is' }).click()
    const status = dialog(page, 'How far the visit is')
    await status.getByRole('radio', { name: 'delivered' }).check()
    await status.getByRole('button', { name: 'Set it' }).click()
    await giveManagersCode(page)
    const file = dialog(page, 'The car’s file')
    await file.getByText('The car is handed over.').waitFor()
    expect(await violations(page)).toEqual([])

    await file.getByLabel('Prices').check()
    const saving = page.waitForEvent('download', PRINTED)
    await file.getByRole('button', { name: 'Save the file (.zip)' }).click()
    const saved = await saving
    expect(saved.suggestedFilename()).toBe('car-S-101.zip')
    const path = join(folder, 'car.zip')
    await saved.saveAs(path)
    await file.getByText(/^Saved: \d+ kB\.$/).waitFor()

    const bag = await readBag(path, BAG_LIMITS)
    if (!bag.ok) throw new Error(bag.refusal.message)
    const text = await bag.value.readText('workshop.json', 100_000)
    await bag.value.close()
    if (!text.ok) throw new Error(text.refusal.message)
    const { car, choices } = carFileWorkshopSchema.parse(JSON.parse(text.value))
    expect(car.shellNumber).toBe('S-101')
    expect(choices).toEqual({ contacts: false, prices: true, hours: false })

    const book = page.waitForEvent('download', PRINTED)
    await file.getByRole('button', { name: 'Save the book (PDF)' }).click()
    expect((await book).suggestedFilename()).toBe('car-S-101.pdf')
    await file.getByRole('button', { name: 'Close' }).click()
    await page.getByRole('button', { name: 'The car’s file' }).waitFor()
  },
)
