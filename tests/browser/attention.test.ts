import { entryIdSchema, type EntryId, type PersonId } from '../../domain/ids.ts'
import { dialog, sign, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { onGate } from '../support/car-builder.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { serve } from '../support/served.ts'
import { codes, manager, painter, welder, type Workshop } from '../support/workshop.ts'

/** A clock left running yesterday, and an hour on a roof gutter that the owner has not accepted. */
const goneAstray = (workshop: Workshop) => {
  const carId = bringInLarkspur(workshop)
  addRepair(workshop, carId, 'Boot floor')
  addRepair(workshop, carId, 'Roof gutter', { accepted: false })
  const on = (name: string) => ({ kind: 'work' as const, targets: [onGate(name, 'opened')] })
  const clock = { hotWork: false, cause: null }
  const [left, early] = [entryIdSchema.parse('entry-left'), entryIdSchema.parse('entry-early')]
  const start = (entryId: EntryId, personId: PersonId, name: string) =>
    workshop.run('startClock', { entryId, personId, on: on(name), ...clock }, { carId, by: personId })
  start(early, painter, 'Roof gutter')
  workshop.pass({ hours: 1 })
  workshop.run('stopClock', { entryId: early, overtime: false, shares: null }, { carId, by: painter })
  workshop.pass({ hours: 6, minutes: 30 })
  start(left, welder, 'Boot floor')
  workshop.pass({ hours: 17 })
}

browserTest(
  'what went astray yesterday is shown with the way to it, and ends when it is put right',
  async () => {
    const served = await serve({ before: goneAstray })
    const { page } = await served.open({ at: '/shop-floor' })
    await signIn(page)
    const today = page.getByRole('region', { name: 'Needs you today' })
    await page.getByText('2 warnings').waitFor()

    const clock = today
      .getByRole('listitem')
      .filter({ hasText: "Ilse Brandt's clock still runs on boot floor" })
    await clock.getByRole('button', { name: 'When did it stop?' }).click()
    await dialog(page, 'When did Ilse Brandt stop?')
      .getByRole('button', { name: 'Confirm this time' })
      .click()
    await page.getByText('1 warning', { exact: true }).waitFor()
    await today.getByText('When did it stop?').waitFor({ state: 'detached' })

    const gutter = today.getByRole('listitem').filter({ hasText: 'Larkspur 4: 1.0 h on roof gutter: opened' })
    await gutter.getByText('the owner has not accepted its estimate').waitFor()
    await gutter.getByRole('link', { name: 'the estimate' }).click()
    await page.getByRole('button', { name: /^The owner accepts/ }).click()
    const accepted = 'Larkspur 4: the owner accepts'
    await page.getByRole('button', { name: 'Go on to sign' }).click()
    await sign(page, accepted, { name: 'Mara Lindqvist', code: codes[manager] ?? '' })
    await page.getByRole('button', { name: /^The owner accepts/ }).waitFor({ state: 'detached' })

    await page.getByRole('link', { name: 'Hours' }).click()
    const gate = page.getByRole('row').filter({ has: page.getByRole('button', { name: 'Roof gutter' }) })
    await gate.getByRole('button').focus()
    await page.keyboard.press('Enter')
    await page.getByRole('button', { name: 'opened' }).focus()
    await page.keyboard.press('Enter')
    await page
      .getByRole('list', { name: 'Entries of Roof gutter, opened' })
      .getByText('Tomasz Hale')
      .waitFor()

    await page.getByRole('link', { name: 'Shop floor' }).click()
    await today.getByText('All is as agreed').waitFor()
  },
)
