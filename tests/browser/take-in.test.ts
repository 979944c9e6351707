import { createWriteStream, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { describe, onTestFinished } from 'vitest'
import { writeBagArchive } from '../../electron/bag/write-bag.ts'
import { openWholeWorkshop } from '../../electron/whole/whole-bag.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'
import { createWorkshop } from '../support/workshop.ts'

describe('a first run', () => {
  browserTest(
    'takes in a workshop that was taken out elsewhere, and lets its manager choose a code',
    async () => {
      const archive = await savedWorkshop()
      const { open } = await serve({ setUp: false })
      const { page } = await open({ tolerates: [/422/] })
      const choice = page.getByLabel('The whole workshop, a .zip')
      await choice.setInputFiles({
        name: 'x.zip',
        mimeType: 'application/zip',
        buffer: Buffer.from('no archive'),
      })
      await page.getByRole('alert').getByText('This file is no .zip archive').waitFor()
      // Nothing that was read before is true any more: the page is opened anew by itself, and with it a dialog would go.
      const opened = page.waitForEvent('load')
      await choice.setInputFiles(archive)
      await opened
      await page.getByText('No manager has a code on this computer yet.').waitFor()
      await page.getByRole('button', { name: 'Manager: choose a code' }).click()
      const dialog = page.getByRole('dialog', { name: /first code/ })
      for (const [label, digits] of [
        ['New code', '271828'],
        ['The same code once more', '271829'],
        ['New code', '271828'],
        ['The same code once more', '271828'],
      ] as const) {
        await dialog.getByLabel(label).fill(digits)
        await dialog.getByRole('button', { name: /Go on|Set the code/ }).click()
      }
      await dialog.waitFor({ state: 'detached' })
      await page.getByText('Signed in:').waitFor()
      await page.getByText('No manager has a code').waitFor({ state: 'detached' })
      await page.getByRole('link', { name: 'Cars', exact: true }).click()
      await page.getByRole('link', { name: 'Larkspur 4' }).waitFor()
    },
  )
})

async function savedWorkshop(): Promise<string> {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-archive-'))
  onTestFinished(() => rmSync(folder, { recursive: true }))
  const workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar()
  const whole = openWholeWorkshop(workshop.dataDir ?? '', workshop.now)
  const path = join(folder, 'whole.zip')
  await pipeline(writeBagArchive(whole.bag, whole.bagName), createWriteStream(path))
  whole.close()
  workshop.close()
  return path
}
