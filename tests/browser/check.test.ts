import { createHash } from 'node:crypto'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { describe, onTestFinished } from 'vitest'
import { photosFolder } from '../../db/data-paths.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { dialog, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { copyOf } from '../support/copies.ts'
import { createTestPhoto } from '../support/images.ts'
import { codes, manager } from '../support/workshop.ts'
import { serve } from '../support/served.ts'

describe('the check and erasing', () => {
  browserTest('a damaged photo is named and taken from a copy; a contact is erased by the code', async () => {
    const disk = mkdtempSync(join(tmpdir(), 'panelwright-disk-'))
    onTestFinished(() => rmSync(disk, { recursive: true }))
    const bytes = await createTestPhoto({ width: 64, height: 48, color: '#357' })
    const sha256 = createHash('sha256').update(bytes).digest('hex')
    const { open, dataDir } = await serve({
      before: ({ db, dataDir: folder }) => {
        const path = originalPath(photosFolder(folder!), sha256)
        mkdirSync(dirname(path), { recursive: true })
        writeFileSync(path, bytes)
        db.writer.sqlite
          .prepare(
            `INSERT INTO photo (sha256, bytes, width, height, type, received) VALUES (?, ?, 64, 48, 'jpeg', '2026-11-23T07:00:00.000Z')`,
          )
          .run(sha256, bytes.length)
      },
    })
    await copyOf({ dataDir, folder: disk })
    writeFileSync(originalPath(photosFolder(dataDir), sha256), bytes.toReversed())

    const { page } = await open({ at: '/workshop?sheet=check' })
    await signIn(page)
    await page.getByRole('button', { name: 'Check now' }).click()
    await page.getByText('something is lost or was changed').waitFor({ timeout: 60_000 })
    await page.getByText(sha256.slice(0, 12)).first().waitFor()
    await page.getByLabel('Folder with copies of the workshop').fill(disk)
    await page.getByRole('button', { name: /^Mend/ }).click()
    await page.getByText('It was taken from a copy and is what was recorded.').waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Check again' }).waitFor()

    await page.getByRole('link', { name: 'Contacts' }).click()
    await page.getByRole('button', { name: 'more about R. Okafor' }).click()
    await page.getByRole('menuitem', { name: 'Erase for good …' }).click()
    await page.getByText('What stays, and where').waitFor()
    await page.getByRole('button', { name: 'Erase for good …', exact: true }).click()
    const signing = dialog(page, 'Erase R. Okafor for good').filter({ has: page.getByLabel('Own code') })
    await signing.getByLabel('Own code').fill(codes[manager]!)
    await signing.getByRole('button', { name: 'Erase for good', exact: true }).click()
    await page.getByText(/^An owner, on /).waitFor()
    await page.getByText('R. Okafor').waitFor({ state: 'detached' })
  })
})
