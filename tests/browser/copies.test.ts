import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, onTestFinished } from 'vitest'
import { signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'

describe('copies', () => {
  browserTest('a manager has the workshop copied, and another computer goes on from the copy', async () => {
    const disk = mkdtempSync(join(tmpdir(), 'panelwright-disk-'))
    onTestFinished(() => rmSync(disk, { recursive: true }))
    const { open } = await serve({ before: (workshop) => void bringInLarkspur(workshop) })
    const { page } = await open({ at: '/shop-floor' })
    await page.getByText('There is no copy of this workshop yet.').waitFor()
    await page.getByRole('link', { name: 'Go to Copies' }).click()
    await signIn(page)
    await page.getByRole('button', { name: 'Choose a folder for copies' }).click()
    await page.getByLabel('Folder for copies').fill(join(disk, 'missing'))
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByText('Attach its disk, or choose a folder that is there.').waitFor()
    await page.getByLabel('Folder for copies').fill(disk)
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByRole('button', { name: 'Copy now' }).click()
    await page.getByText(/, verified$/).waitFor({ timeout: 60_000 })
    await page.getByText('1 car, 0 photos; ').waitFor()
    await page.getByRole('link', { name: 'Shop floor' }).click()
    await page.getByText('There is no copy').waitFor({ state: 'detached' })

    const { open: openEmpty } = await serve({ setUp: false })
    const { page: empty } = await openEmpty()
    await empty.getByLabel('Folder with the copies').fill(disk)
    await empty.getByRole('button', { name: 'Look for copies' }).click()
    await empty.getByText('1 car, 0 photos; ').waitFor()
    await empty.getByRole('button', { name: 'Restore this copy' }).click()
    await empty.getByRole('button', { name: 'Manager: choose a code' }).waitFor()
    await empty.getByRole('heading', { name: 'Brookside Metalwork' }).waitFor()
  })
})
