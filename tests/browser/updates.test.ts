import { describe } from 'vitest'
import { signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'

describe('looking for newer versions', () => {
  browserTest('is switched on, tried and switched off by a manager', async () => {
    const { open } = await serve()
    const { page } = await open({ at: '/workshop?sheet=updates' })
    await page.getByText('Only managers see whether there is a newer version').waitFor()
    await signIn(page)
    await page.getByRole('heading', { name: 'Newer versions are not looked for' }).waitFor()
    await page.getByRole('button', { name: 'Have newer versions looked for' }).click()
    const address = page.getByLabel('Address of the version feed')
    await address.fill('http://versions.example/feed.json')
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByText('Give an address that begins with https:// and holds no name or password.').waitFor()
    // Nothing listens there, so that no test asks anything of the internet.
    await address.fill('https://127.0.0.1:1/feed.json')
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByText('Nothing has been asked there yet.').waitFor()
    await page.getByRole('button', { name: 'Look now' }).click()
    await page.getByText(/nothing could be found out\.$/).waitFor()
    await page.getByText(/^Nothing could be read at the address/).waitFor()
    await page.getByRole('button', { name: 'Change or switch off' }).click()
    await page.getByText('not at all').click()
    await page.getByRole('button', { name: 'Set', exact: true }).click()
    await page.getByRole('heading', { name: 'Newer versions are not looked for' }).waitFor()
  })
})
