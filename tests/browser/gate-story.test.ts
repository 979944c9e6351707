import { expect } from 'vitest'
import { comeBackWith, dialog, PRINTED, signIn, testPhotoFile } from '../support/at-screen.ts'
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
    await office.getByRole('article').locator('figcaption', { hasText: caption }).waitFor()
    await office.getByRole('button', { name: 'Prepare the one that is left' }).click()
    const preparing = dialog(office, /^Prepare all of week/)
    await preparing.getByRole('button', { name: 'Prepare 1 report' }).click()
    await preparing.getByText('1 of 1 report prepared.').waitFor(PRINTED)
    await preparing.getByRole('button', { name: 'Close' }).last().click()
    await office.getByText(/^Prepared .+: it prints, and the file of every photo is there\.$/).waitFor()

    // A cut by the keyboard alone, which the preview keeps.
    await office
      .getByRole('button', { name: `Crop of ${caption}` })
      .first()
      .press('Enter')
    const cropping = dialog(office, 'Crop the photo')
    for (const key of ['Shift+ArrowLeft', 'Shift+ArrowLeft', 'ArrowRight'])
      await cropping.getByRole('button', { name: 'The part that is shown' }).press(key)
    await expect.poll(() => cropping.getByLabel('From the left').inputValue()).toBe('1')
    await expect.poll(() => cropping.getByLabel('Width').inputValue()).toBe('98')
    await cropping.getByRole('button', { name: 'Use this part' }).press('Enter')
    await office.getByRole('button', { name: `Change the crop of ${caption}` }).waitFor()

    await office.getByRole('button', { name: 'Issue it' }).click()
    await dialog(office, /^Issue report 1/)
      .getByRole('button', { name: 'Issue it' })
      .click()
    const printed = office.getByRole('link', { name: 'Open the PDF' })
    await printed.waitFor(PRINTED)
    const href = await printed.getAttribute('href')
    const file = await office.request.get(new URL(href ?? '', served.url).href)
    expect(file.headers()['content-type']).toBe('application/pdf')
    expect(textOfPdf(await file.body()).replaceAll('\n', ' ')).toContain(caption)
    const page = await office.getByRole('link', { name: 'Save the page for a phone' }).getAttribute('href')
    const kept = await office.request.get(new URL(page ?? '', served.url).href)
    expect(kept.headers()['content-type']).toBe('text/html; charset=utf-8')
    expect(await kept.text()).toContain(caption)

    // A correction says what becomes of the one before.
    await office.getByRole('button', { name: 'Correct it' }).click()
    await office.getByText('It goes out as report 2 and says that it takes the place of report 1').waitFor()
  },
)
