import { expect } from 'vitest'
import { comeBackWith, dialog, signIn, testPhotoFile } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { textOfPdf } from '../support/pdf-text.ts'
import { serve } from '../support/served.ts'
import { countTaps } from '../support/taps.ts'
import { codes, welder } from '../support/workshop.ts'

/** Of the day sheet, from the list of work to the signed gate: taps and code digits. */
const MOST_TAPS = 12

const ilse = { name: 'Ilse Brandt', code: codes[welder] ?? '' }
const caption = 'Seams of the spare-wheel well, sealed'

browserTest(
  'a gate with two photos goes from the technician’s tap to the manager’s other screen to the owner’s report',
  async () => {
    const served = await serve({
      before: (workshop) => {
        const carId = bringInLarkspur(workshop)
        const gates = { sealed: photosOnly(2), primed: photosOnly(1) }
        addRepair(workshop, carId, 'Spare-wheel well', { plan: { gates }, passed: 'fabricated' })
      },
    })
    const { page: phone } = await served.open({ size: 'phone', at: '/day-sheet' })
    const { page: office } = await served.open({ at: '/shop-floor' })
    await phone.getByRole('button', { name: ilse.name }).click()
    await office.getByText('sealed next, spare-wheel well').waitFor()

    // The technician, from the day sheet.
    const taps = await countTaps(phone)
    await phone.getByRole('link', { name: 'Spare-wheel well' }).click()
    await phone.getByRole('heading', { name: 'sealed is next' }).waitFor()
    for (const color of ['#7a5c40', '#6f6f6f'])
      await comeBackWith(
        phone,
        phone.getByRole('button', { name: 'Take photos' }),
        await testPhotoFile(`${color}.jpg`, color),
      )
    await phone.getByText('2 of 2').waitFor()
    await phone.getByRole('button', { name: 'Sign off gate' }).click()
    await dialog(phone, 'Sign off sealed').getByRole('button', { name: 'Go on to sign' }).click()
    for (const digit of ilse.code)
      await dialog(phone, 'Sign off sealed').getByRole('button', { name: digit, exact: true }).click()
    await dialog(phone, 'Sign off sealed').getByRole('button', { name: 'Sign sealed' }).click()
    await phone.getByRole('heading', { name: 'primed is next' }).waitFor()
    expect(await taps()).toBeLessThanOrEqual(MOST_TAPS)
    expect(await taps()).toBeGreaterThan(ilse.code.length)

    // The manager's screen, which nobody has touched.
    await office.getByText('primed next, spare-wheel well').waitFor()

    await phone.getByRole('button', { name: 'write captions' }).click()
    await dialog(phone, 'Captions').getByRole('textbox').first().fill(caption)
    await dialog(phone, 'Captions').getByRole('button', { name: 'Save' }).click()
    await phone.getByText(caption).first().waitFor()

    // The owner's report of this week.
    await office.getByRole('link', { name: 'Owner reports' }).click()
    await signIn(office)
    await office.getByRole('article').getByText(caption).waitFor()
    await office.getByRole('button', { name: 'Issue it' }).click()
    await dialog(office, /^Issue report 1/)
      .getByRole('button', { name: 'Issue it' })
      .click()
    const href = await office.getByRole('link', { name: 'Open the PDF' }).getAttribute('href')
    const file = await office.request.get(new URL(href ?? '', served.url).href)
    expect(file.headers()['content-type']).toBe('application/pdf')
    expect(textOfPdf(await file.body()).replaceAll('\n', ' ')).toContain(caption)
  },
)
