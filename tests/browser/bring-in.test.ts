import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { onTestFinished } from 'vitest'
import { EVERYTHING } from '../support/came-car.ts'
import { archiveOf, damaged } from '../support/came-file.ts'
import { carWithEveryKind } from '../support/car-file.ts'
import { dialog, giveManagersCode } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'

browserTest('a car’s file is verified, told and brought in under another number, and only once', async () => {
  const { workshop, carId } = await carWithEveryKind()
  const folder = mkdtempSync(join(tmpdir(), 'came-file-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const archive = await archiveOf(workshop, carId, EVERYTHING, folder)
  workshop.close()
  const served = await serve({
    before: (here) => {
      const teasel = here.addCar('Teasel', 'S-555')
      const changed = { shellNumber: 'S-101', name: 'Teasel', body: 'tourer' as const, year: 1961 }
      here.run('changeCar', changed, { carId: teasel })
    },
  })
  const { page } = await served.open({ at: '/cars', tolerates: [/status of 422/] })
  const open = async () => {
    await page.getByRole('button', { name: 'Bring in a car’s file' }).click()
    return dialog(page, 'Bring in a car’s file')
  }

  const form = await open()
  await form.getByLabel('File').setInputFiles(damaged(archive, folder))
  await giveManagersCode(page)
  await form.getByText('Not done:').waitFor()

  await form.getByLabel('File').setInputFiles(archive)
  await form.getByText('Shell number S-101 is taken here by Teasel.').waitFor()
  await form.getByText('Brookside Metalwork').waitFor()
  await form.getByRole('button', { name: 'Bring in' }).click()
  await form.getByText('Give the car a shell number that no other car here has.').waitFor()
  await form.getByLabel('Another shell number').fill('S-202')
  await form.getByRole('button', { name: 'Bring in' }).click()
  await form.getByText('Larkspur Four is in.').waitFor()
  await form.getByRole('button', { name: 'Close' }).last().click()

  await page.getByRole('heading', { name: 'Came with their file, without a visit yet' }).waitFor()
  await page.getByText('came from Brookside Metalwork').waitFor()
  const again = await open()
  await again.getByLabel('File').setInputFiles(archive)
  await again.getByText('This car came in with its file from Brookside Metalwork on').waitFor()
  await again.getByRole('button', { name: 'Bring in', disabled: true }).waitFor()
  await again.getByRole('button', { name: 'Cancel' }).click()

  await page.getByRole('link', { name: 'Larkspur Four' }).click()
  await page.getByText('no visit here yet').waitFor()
  await page.getByRole('button', { name: 'Change', exact: true }).click()
  await page.getByRole('menuitem', { name: 'Open a visit' }).waitFor()
})
