import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { photosFolder } from '../../db/data-paths.ts'
import {
  choosePerson,
  codeDialog,
  comeBackWith,
  dialog,
  strips,
  testPhotoFile,
} from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { factsOf } from '../support/installed.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'
import { codes, firstMorning, welder } from '../support/workshop.ts'

const repair = '/cars/car-s-101/repairs/repair-boot-floor'
const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }

const serveBootFloor = (photos: number) =>
  serve({
    before: (workshop) => {
      const plan = { gates: { opened: photosOnly(photos) } }
      addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
    },
  })

describe('without a network', () => {
  browserTest(
    'what is taken and entered waits on the device and arrives once when the network is back',
    async () => {
      const served = await serveBootFloor(2)
      const { page, context } = await served.open({ size: 'phone', at: repair, tolerates: cutNetwork })
      const { page: office } = await served.open({
        at: '/cars/car-s-101?sheet=photos',
        tolerates: cutNetwork,
      })
      await choosePerson(page, ilse.name)
      await context.setOffline(true)
      served.breakConnections()
      await strips(page).getByText('No connection to the host.').waitFor()

      const take = page.getByRole('button', { name: /^Take photos/ })
      for (const name of ['before.jpg', 'after.jpg'])
        await comeBackWith(page, take, await testPhotoFile(name))
      await page.getByRole('button', { name: 'clock in here' }).click()
      await strips(page).getByText('1 entry and 2 photos kept on this device').waitFor()
      await office.getByRole('link', { name: 'Photos 0' }).waitFor()

      await context.setOffline(false)
      await page.getByText('2 of 2').waitFor()
      await strips(page).getByText('kept on this device').waitFor({ state: 'detached' })
      await page.getByText(`${ilse.name}, on this since`).waitFor()
      await office.getByRole('link', { name: 'Photos 2' }).waitFor()
      await office.goto(new URL('/cars/car-s-101?sheet=hours', served.url).href)
      await office.getByText('running').waitFor()
    },
  )

  browserTest(
    'what waits on the device outlives its page, and goes once though two others send it together',
    async () => {
      const served = await serveBootFloor(2)
      const { page, context } = await served.open({ size: 'phone', at: repair, tolerates: cutNetwork })
      await choosePerson(page, ilse.name)
      const other = await context.newPage()
      await other.goto(new URL(repair, served.url).href)
      await other.getByRole('button', { name: /^Take photos/ }).waitFor()
      await context.setOffline(true)
      const take = page.getByRole('button', { name: /^Take photos/ })
      await comeBackWith(page, take, await testPhotoFile('a.jpg'))
      await strips(page).getByText('1 photo kept on this device').waitFor()
      await comeBackWith(page, take, await testPhotoFile('b.jpg', '#446688'))
      await strips(page).getByText('2 photos kept on this device').waitFor()
      await page.close()

      await context.setOffline(false)
      const later = await context.newPage()
      await later.goto(new URL(repair, served.url).href)
      await later.getByText('2 of 2').waitFor()
      await other.getByText('2 of 2').waitFor()
      expect(factsOf(served.dataDir, 'photoAttached')).toHaveLength(2)
    },
  )

  browserTest(
    'a gate is prepared without a code, and signed in one step when the network is back',
    async () => {
      const served = await serveBootFloor(1)
      const { page, context } = await served.open({ size: 'phone', at: repair, tolerates: cutNetwork })
      await choosePerson(page, ilse.name)
      const timesAsked = await refusePersistence(page)
      // A network that is just gone: what is sent shows it first, the live connection seconds later.
      await context.setOffline(true)
      await comeBackWith(
        page,
        page.getByRole('button', { name: /^Take photos/ }),
        await testPhotoFile('a.jpg'),
      )
      await strips(page).getByText('No connection to the host.').waitFor()

      await page.getByRole('button', { name: 'Sign off gate' }).click()
      await dialog(page, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }).click()
      const keep = page.getByRole('button', { name: 'Keep it prepared' })
      await keep.waitFor()
      await page.getByLabel('Own code').waitFor({ state: 'detached' })
      await keep.click()
      await strips(page).getByText('1 photo kept on this device. 1 gate prepared, not signed yet.').waitFor()
      await page.getByRole('button', { name: 'show', exact: true }).click()
      const sheet = dialog(page, 'On this device')
      await sheet.getByText('It can be signed once the host answers.').waitFor()
      await sheet.getByText('Photo of Boot floor: opened, after').waitFor()
      await sheet.getByText('The browser has not promised to keep these things').waitFor()
      expect(await timesAsked()).toBe(1)

      served.pass({ hours: 2 })
      await context.setOffline(false)
      await sheet.getByText('It can be signed once the host answers.').waitFor({ state: 'detached' })
      await sheet.getByText('Photo of Boot floor: opened, after').waitFor({ state: 'detached' })
      await sheet.getByRole('button', { name: 'Sign opened' }).click()
      const asked = codeDialog(page, 'Sign off opened')
      await asked.getByLabel('Own code').fill(ilse.code)
      await asked.getByRole('button', { name: 'Sign opened' }).click()
      await sheet.getByText('Nothing waits here').waitFor()
      await sheet.getByRole('button', { name: 'Close' }).click()
      await page.getByRole('heading', { name: 'assessed is next' }).waitFor()
      const [done = ''] = factsOf(served.dataDir, 'gatePassed')
      expect(Date.parse(done) - firstMorning).toBeLessThan(HOUR_MS)
    },
  )
})

const HOUR_MS = 3_600_000

/** A browser that promises nothing; tells how often the page has asked it to. */
async function refusePersistence(page: Page): Promise<() => Promise<number>> {
  const asked = await page.evaluateHandle(() => {
    const count = { times: 0 }
    const persist = () => Promise.resolve(((count.times += 1), false))
    Object.defineProperty(StorageManager.prototype, 'persist', { value: persist })
    return count
  })
  return () => asked.evaluate(({ times }) => times)
}

describe('a file that is no photo', () => {
  browserTest('is named with what to do, and the photos beside it are kept', async () => {
    const served = await serveBootFloor(2)
    const { page } = await served.open({ size: 'desktop', at: repair, tolerates: [/status of 4\d\d/] })
    await choosePerson(page, ilse.name)
    const words = { name: 'notes.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no picture at all') }
    const nothing = { name: 'empty.jpg', mimeType: 'image/jpeg', buffer: Buffer.alloc(0) }
    const whole = await testPhotoFile('whole.jpg')
    const cut = { ...whole, name: 'cut.jpg', buffer: whole.buffer.subarray(0, whole.buffer.length / 2) }
    await comeBackWith(page, page.getByRole('button', { name: /^Take photos/ }), [
      words,
      await testPhotoFile('one.jpg'),
      nothing,
      await testPhotoFile('two.jpg', '#446688'),
      cut,
    ])
    await page.getByText('2 of 2').waitFor()
    for (const name of ['notes.jpg', 'empty.jpg', 'cut.jpg']) {
      const refused = page.getByText(`${name} was not taken in.`)
      await refused.waitFor()
      await page.getByRole('button', { name: 'leave it out' }).first().click()
      await refused.waitFor({ state: 'detached' })
    }
    await page.getByRole('heading', { name: 'Photos 2' }).waitFor()
  })
})

browserTest('a photo that the disk does not take stays on the device until it does', async () => {
  const served = await serveBootFloor(1)
  const { page } = await served.open({ size: 'tablet', at: repair, tolerates: [/status of 5\d\d/] })
  await choosePerson(page, ilse.name)
  const incoming = join(photosFolder(served.dataDir), 'incoming')
  rmSync(incoming, { recursive: true })
  writeFileSync(incoming, 'something else where the folder should be')
  await comeBackWith(page, page.getByRole('button', { name: /^Take photos/ }), await testPhotoFile('a.jpg'))
  await page.getByText('a.jpg was not taken in.').waitFor()
  await page.getByRole('button', { name: 'show', exact: true }).click()
  const sheet = dialog(page, 'On this device')
  await sheet.getByText('The host refused it:').waitFor()
  const saved = page.waitForEvent('download')
  await sheet.getByRole('link', { name: 'Save it as a file' }).click()
  expect((await saved).suggestedFilename()).toBe('a.jpg')

  rmSync(incoming)
  mkdirSync(incoming)
  await sheet.getByRole('button', { name: 'Send it again' }).click()
  await sheet.getByText('Nothing waits here').waitFor()
  await sheet.getByRole('button', { name: 'Close' }).click()
  await page.getByText('1 of 1').waitFor()
})
