import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import { choosePerson, dialog, sign, signIn, testPhotoFile, comeBackWith } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { repairId } from '../support/car-builder.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { countTaps } from '../support/taps.ts'
import { codes, manager, welder, type Workshop } from '../support/workshop.ts'

const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }
const mara = { name: 'Mara Lindqvist', code: codes[manager] ?? '' }

/** Goes to a repair of the Larkspur by its address. */
async function openRepair(page: Page, name: string): Promise<void> {
  await page.goto(new URL(`/cars/car-s-101/repairs/${repairId(name)}`, page.url()).href)
  await page.getByRole('heading', { level: 1, name }).waitFor()
}

describe('the clock', () => {
  browserTest('is started and stopped with one tap each, and its hours stand in the week', async () => {
    const served = await serve({
      before: (workshop) => {
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor')
      },
    })
    const { page: tablet } = await served.open({ size: 'tablet', at: '/day-sheet' })
    const { page: office } = await served.open({ at: '/shop-floor' })
    await tablet.getByRole('button', { name: ilse.name }).click()
    const clock = tablet.getByRole('region', { name: 'Clock' })
    await clock.getByText('No clock runs.').waitFor()

    await tablet.getByRole('button', { name: 'Clock in' }).click()
    await clock.getByText('since 08:00').waitFor()
    await office.getByText('1 clocked on').waitFor()

    served.pass({ hours: 1, minutes: 30 })
    await clock.getByRole('button', { name: 'Stop clock' }).click()
    await clock.getByText('No clock runs.').waitFor()
    await tablet.getByText('1.5 h').first().waitFor()
    await office.getByText('0 clocked on').waitFor()
  })

  browserTest('on hot work is followed by a fire watch that the shop floor shows', async () => {
    const served = await serve({
      before: (workshop) => {
        const plan = { gates: { opened: { hotWork: true } } }
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
      },
    })
    const { page: tablet } = await served.open({ size: 'tablet', at: '/day-sheet' })
    const { page: office } = await served.open({ at: '/shop-floor' })
    await tablet.getByRole('button', { name: ilse.name }).click()
    await tablet.getByRole('button', { name: 'Clock in' }).click()
    await tablet.getByText('hot work: a fire watch follows').waitFor()
    served.pass({ minutes: 45 })
    await tablet.getByRole('button', { name: 'Stop clock' }).first().click()

    await office.getByText('1 running').waitFor()
    await office.getByText('60 min left').waitFor()
    await openRepair(tablet, 'Boot floor')
    await tablet.getByText('Held:').first().waitFor()
    await tablet.getByRole('button', { name: /^Sign off gate.*not yet/ }).waitFor()
  })
})

describe('the day sheet', () => {
  browserTest(
    'stores a photo in two taps and clocks in with one, and the shop floor shows both',
    async () => {
      const plan = { gates: { opened: { asks: { ...ASKS_NOTHING, photosBefore: 1, photos: 1 } } } }
      const served = await serve({
        before: (workshop) => {
          const carId = bringInLarkspur(workshop)
          for (const name of ['Boot floor', 'Roof gutter']) addRepair(workshop, carId, name, { plan })
        },
      })
      const { page: phone } = await served.open({ size: 'phone', at: '/day-sheet' })
      const { page: office } = await served.open({ at: '/shop-floor' })
      await phone.getByRole('button', { name: ilse.name }).click()
      const lineOf = (name: string) =>
        phone.getByRole('listitem').filter({ has: phone.getByRole('link', { name }) })
      const gutter = lineOf('Roof gutter')
      const clock = phone.getByRole('region', { name: 'Clock' })
      const photos = office.getByRole('region', { name: 'Photos of today' })
      const photo = await testPhotoFile('photo.jpg')

      const taps = await countTaps(phone)
      await comeBackWith(phone, gutter.getByRole('button', { name: /before cutting/ }), photo)
      await gutter.getByText('A photo after: 0 of 1').waitFor()
      expect(await taps()).toBeLessThanOrEqual(2)
      await lineOf('Boot floor').getByText('A photo before cutting: 0 of 1').waitFor()
      await photos.getByRole('button', { name: /Roof gutter/ }).click()
      const large = dialog(office, /Roof gutter/)
      await large.getByText('Larkspur').waitFor()
      await large.getByRole('button', { name: 'Close' }).click()

      const before = await taps()
      await gutter.getByRole('button', { name: 'Clock in' }).click()
      await clock.getByText('since 08:00').waitFor()
      expect((await taps()) - before).toBe(1)
      const clocks = office.getByRole('region', { name: 'On the clock' })
      await clocks.getByRole('link', { name: /Ilse Brandt.*Roof gutter: opened/ }).waitFor()

      // Under the thumb stands what the clock runs on.
      await comeBackWith(phone, clock.getByRole('button', { name: /after cutting/ }), photo)
      await gutter.getByText('all there: sign it off').waitFor()
    },
  )
})

describe('a reading of conditions', () => {
  const openBeforePrimer = async () => {
    const conditions = { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null }
    const served = await serve({
      before: (workshop) => {
        const plan = { gates: { primed: { asks: { ...ASKS_NOTHING, conditions } } } }
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan, passed: 'sealed' })
      },
    })
    const { page } = await served.open({ size: 'tablet' })
    await choosePerson(page, ilse.name)
    await openRepair(page, 'Boot floor')
    return page
  }

  // 20 °C at 50 % has its dew point at 9.3 °C (psychrometric tables, as those of ISO 8502-4; from memory).
  browserTest(
    'shows the dew point while it is typed, and holds the gate when steel is too near to it',
    async () => {
      const page = await openBeforePrimer()
      const ask = page.getByRole('button', { name: /Air temperature, humidity and steel temperature/ })
      const reading = dialog(page, 'Conditions for primed')

      await ask.click()
      await reading.getByLabel('Air').fill('20')
      await reading.getByLabel('Humidity').fill('50')
      await reading.getByText('9.3 °C', { exact: true }).waitFor()
      await reading.getByLabel('Steel').fill('11,2')
      await reading.getByText('1.9 °C', { exact: true }).waitFor()
      await reading.getByRole('button', { name: 'Record it' }).click()
      await ask.getByText(/1\.9 °C/).waitFor()

      await ask.click()
      await reading.getByLabel('Air').fill('20')
      await reading.getByLabel('Humidity').fill('50')
      await reading.getByLabel('Steel').fill('18')
      await reading.getByText('8.7 °C', { exact: true }).waitFor()
      await reading.getByText('inside the limits').waitFor()
      await reading.getByRole('button', { name: 'Record it' }).click()
      await ask.getByText('inside the limits').waitFor()
      await page.getByRole('button', { name: 'Sign off gate primed' }).waitFor()
    },
  )

  browserTest('that no thermometer gives is refused where it is typed', async () => {
    const page = await openBeforePrimer()
    await page.getByRole('button', { name: /Air temperature/ }).click()
    const reading = dialog(page, 'Conditions for primed')
    await reading.getByLabel('Air').fill('20')
    await reading.getByLabel('Humidity').fill('150')
    await reading.getByLabel('Steel').fill('cold')
    await reading.getByRole('button', { name: 'Record it' }).click()
    await reading.getByText('Give a figure, like 4.5.').waitFor()
    await expect.poll(() => reading.getByLabel('Humidity').getAttribute('aria-invalid')).toBe('true')
    await expect.poll(() => reading.getByLabel('Air').inputValue()).toBe('20')
  })
})

describe('a hold', () => {
  /** The boot floor over an unfinished well, a valance whose sealer cures, a gutter that the owner has not accepted. */
  const heldWorkshop = (workshop: Workshop) => {
    const carId = bringInLarkspur(workshop)
    const well = addRepair(workshop, carId, 'Spare-wheel well')
    addRepair(workshop, carId, 'Boot floor', { covers: [well], passed: 'trial-fitted' })
    addRepair(workshop, carId, 'Rear valance', {
      plan: { gates: { sealed: { cureHours: 24 } } },
      passed: 'sealed',
    })
    addRepair(workshop, carId, 'Roof gutter', { accepted: false })
  }

  browserTest('says why the gate waits and who can clear it', async () => {
    const served = await serve({ before: heldWorkshop })
    const { page } = await served.open({ size: 'tablet' })
    await choosePerson(page, ilse.name)

    await openRepair(page, 'Boot floor')
    await page.getByText('Spare-wheel well behind it is not finished.').waitFor()
    await page.getByText('Cleared by the technician.').first().waitFor()
    // Closing in order is never released.
    await page.getByRole('button', { name: 'Ask for a release' }).waitFor({ state: 'detached' })
    await page.getByRole('link', { name: 'Go to it' }).click()
    await page.getByRole('heading', { name: 'opened is next' }).waitFor()

    await openRepair(page, 'Rear valance')
    await page.getByText(/Held:.*cures until Tue 24 Nov/).waitFor()
    await page.getByText('It ends by itself.').waitFor()

    await openRepair(page, 'Roof gutter')
    await page.getByText('Opened is estimated and the owner has not accepted it yet.').waitFor()
    await page.getByText('Cleared by the owner.').waitFor()

    // The day sheet says the same of what waits.
    await page.getByRole('link', { name: 'Day sheet' }).click()
    await page.getByText('Spare-wheel well behind it is not finished.').waitFor()
  })

  browserTest(
    'is released by the manager when the technician asks, with both reasons on record',
    async () => {
      const served = await serve({ before: heldWorkshop })
      const { page: tablet } = await served.open({ size: 'tablet' })
      const { page: office } = await served.open({ at: '/shop-floor' })
      await choosePerson(tablet, ilse.name)
      await openRepair(tablet, 'Roof gutter')
      await tablet.getByRole('button', { name: 'Ask for a release' }).click()
      const ask = dialog(tablet, 'Ask for a release')
      await ask.getByLabel('Why it should be released').fill('The owner said yes at the counter.')
      await ask.getByRole('button', { name: 'Ask the manager' }).click()
      await ask.waitFor({ state: 'detached' })

      await signIn(office)
      await office.getByText('1 release').waitFor()
      await office.getByRole('link', { name: 'look at it' }).click()
      await office.getByRole('button', { name: 'Release', exact: true }).click()
      const release = dialog(office, 'Release a hold')
      await release.getByLabel('Why it is released').fill('Letter follows on Wednesday.')
      await release.getByRole('button', { name: 'Go on to sign' }).click()
      await sign(office, 'Release a hold', mara, 'Release it')

      await tablet.getByText('Released').waitFor()
      await tablet.getByText('Letter follows on Wednesday.').waitFor()
      await office.goto(new URL(office.url()).origin + '/cars/car-s-101?sheet=record')
      await office.getByText('The owner said yes at the counter.').waitFor()
      await office.getByText('Letter follows on Wednesday.').waitFor()
    },
  )
})

describe('a gate', () => {
  browserTest('is marked not needed, and reopened, by the manager with a reason', async () => {
    const served = await serve({
      before: (workshop) => {
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { passed: 'fabricated' })
      },
    })
    const { page } = await served.open()
    await signIn(page)
    await openRepair(page, 'Boot floor')
    await page.getByRole('button', { name: 'more about sealed' }).click()
    await page.getByRole('menuitem', { name: 'Mark it not needed' }).click()
    const notNeeded = dialog(page, 'sealed is not needed')
    await notNeeded.getByRole('button', { name: 'Go on to sign' }).click()
    await notNeeded.getByRole('alert').first().waitFor()
    await notNeeded.getByLabel('Why it is not needed').fill('No seam lies in this corner.')
    await notNeeded.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(page, 'sealed is not needed', mara)
    await page.getByRole('heading', { name: 'primed is next' }).waitFor()
    await page.getByText('not needed Mon 23 Nov').waitFor()

    await page.getByRole('button', { name: 'more about fabricated' }).click()
    await page.getByRole('menuitem', { name: 'Reopen it, with a cause' }).click()
    const reopen = dialog(page, 'Reopen fabricated')
    await reopen.getByText('This takes back fabricated and sealed.').waitFor()
    await reopen.getByRole('radio', { name: 'workmanship' }).check()
    await reopen.getByLabel('What happened').fill('A pinhole in the new seam.')
    await reopen.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(page, 'Reopen fabricated', mara)
    await page.getByRole('heading', { name: 'fabricated is next' }).waitFor()
    await page.getByText('A pinhole in the new seam.').waitFor()
  })

  browserTest('that asks for a photo is not signed off before the photo has arrived', async () => {
    const served = await serve({
      before: (workshop) => {
        const plan = { gates: { opened: photosOnly(1) } }
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
      },
    })
    const { page } = await served.open({ size: 'tablet' })
    await choosePerson(page, ilse.name)
    await openRepair(page, 'Boot floor')
    await page.getByRole('button', { name: /^Sign off gate/ }).click()
    const notYet = dialog(page, 'opened cannot be signed yet')
    await notYet.getByText('0 of 1', { exact: true }).waitFor()
    await notYet.getByRole('button', { name: 'Close' }).click()
    await comeBackWith(page, page.getByRole('button', { name: /^Take photos/ }), await testPhotoFile('a.jpg'))
    await page.getByRole('button', { name: 'Sign off gate opened' }).click()
    await dialog(page, 'Sign off opened').getByRole('button', { name: 'Go on to sign' }).waitFor()
  })
})
