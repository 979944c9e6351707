import { expect } from 'vitest'
import { choosePerson, comeBackWith, dialog, signIn, strips, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'

browserTest('two screens stay in step without being reloaded, whichever of them acts', async () => {
  const served = await serve({
    before: (workshop) => {
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
    },
  })
  const repair = '/cars/car-s-101/repairs/repair-boot-floor'
  const { page: tablet } = await served.open({ size: 'tablet', at: repair })
  const { page: office } = await served.open({ at: '/cars/car-s-101?sheet=photos' })
  const pages = [tablet, office]
  for (const page of pages) await page.evaluate(() => Object.assign(window, { isSame: true }))

  await choosePerson(tablet, 'Ilse Brandt')
  await comeBackWith(
    tablet,
    tablet.getByRole('button', { name: /^Take photos/ }),
    await testPhotoFile('first.jpg'),
  )
  await office.getByRole('link', { name: 'Photos 1' }).waitFor()
  await office.locator('figure img').first().waitFor()

  await signIn(office)
  await office.getByRole('button', { name: 'Change' }).click()
  await office.getByRole('menuitem', { name: 'Name, shell number, body' }).click()
  await dialog(office, 'Change the car').getByLabel('Name').fill('Larkspur Four')
  await dialog(office, 'Change the car').getByRole('button', { name: 'Change it' }).click()
  await tablet.getByText('Larkspur Four').first().waitFor()

  for (const page of pages) expect(await page.evaluate(() => 'isSame' in window)).toBe(true)
})

browserTest('a screen that was cut off catches up with what it missed', async () => {
  const served = await serve({
    before: (workshop) => {
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
    },
  })
  const { page: tablet } = await served.open({
    size: 'tablet',
    at: '/day-sheet',
    tolerates: cutNetwork,
  })
  const { page: office, context } = await served.open({ at: '/shop-floor', tolerates: cutNetwork })
  await tablet.getByRole('button', { name: 'Ilse Brandt' }).click()
  await office.getByText('0 clocked on').waitFor()

  await context.setOffline(true)
  served.breakConnections()
  await strips(office).getByText('No connection to the host.').waitFor()
  await tablet.getByRole('button', { name: 'Clock in' }).click()
  await tablet.getByRole('button', { name: 'Stop clock' }).first().waitFor()
  await office.getByText('0 clocked on').waitFor()

  await context.setOffline(false)
  await office.getByText('1 clocked on').waitFor()
  await strips(office).getByText('No connection to the host.').waitFor({ state: 'detached' })
})
