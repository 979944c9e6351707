import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { demoPeople } from '../../db/demo/demo-people.ts'
import { choosePerson, dialog, signIn } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest, screenSizes, type ScreenSize } from '../support/browser.ts'
import { hardToReach, hardToRead, painted } from '../support/enlarged.ts'
import { everyScreen, hardToUse, jumps, show } from '../support/every-screen.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { hardToHear } from '../support/reader.ts'
import { serve, serveDemo, type Served } from '../support/served.ts'

/** What breaks WCAG 2.2 AA on the page as it is, in light and in dark. */
async function faultsOf(page: Page, where: string): Promise<readonly string[]> {
  const faults: string[] = []
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    faults.push(...(await violations(page)).map((words) => `${where}, ${colorScheme}: ${words}`))
  }
  return faults
}

/** Colours are the same on every size and shapes in every scheme, so each size is looked at in one scheme. */
async function walkThrough(served: Served, { size, colorScheme, more }: Walk): Promise<readonly string[]> {
  const { page } = await served.open({ size, colorScheme })
  await choosePerson(page, demoPeople.wren.name)
  await signIn(page, demoPeople.maren.code)
  const faults: string[] = []
  for (const path of await everyScreen(page, served.url)) {
    const where = `${path} on a ${size}, ${colorScheme}`
    await show(page, new URL(path, served.url).href)
    faults.push(...(await jumps(page)).map((words) => `${where}: ${words}`))
    faults.push(...(await hardToUse(page)).map((words) => `${where}: ${words}`))
    faults.push(...(await violations(page)).map((words) => `${where}: ${words}`))
    faults.push(...(await more(page)).map((words) => `${where}: ${words}`))
  }
  return faults
}

interface Walk {
  readonly size: ScreenSize
  readonly colorScheme: 'light' | 'dark'
  /** What is looked at on this walk alone. */
  readonly more: (page: Page) => Promise<readonly string[]>
}

/** What moves although the system asks for stillness, as the pages of tests do. */
const moving = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    document.getAnimations().map(({ effect }) => {
      const target = effect instanceof KeyframeEffect ? effect.target : null
      return `moves: ${target?.tagName ?? 'something'} ${target?.className ?? ''}`
    }),
  )

/** Some forty screens, twice; a quarter of it on an idle machine. */
const EVERY_SCREEN_MS = 480_000

describe('accessibility', () => {
  // The pages themselves fail the test when their console shows an error, such as a violated security policy.
  browserTest(
    'every screen holds WCAG 2.2 AA in light and dark, fits a finger, reads aloud in order, keeps still, never jumps and stays whole at 400 %',
    { timeout: EVERY_SCREEN_MS },
    async () => {
      const served = await serveDemo()
      const walks = await Promise.all([
        walkThrough(served, {
          size: 'tablet',
          colorScheme: 'light',
          more: async (page) => [...(await hardToHear(page)), ...(await moving(page))],
        }),
        walkThrough(served, { size: 'phone', colorScheme: 'dark', more: hardToRead }),
      ])
      expect(walks.flat()).toEqual([])
    },
  )

  browserTest('the first screen and the one of a wrong address hold WCAG 2.2 AA too', async () => {
    const empty = await serve({ setUp: false })
    const { page } = await empty.open({ size: 'phone' })
    await page.getByRole('button', { name: 'Set up your workshop' }).waitFor()
    const faults = [...(await hardToUse(page)), ...(await faultsOf(page, 'first run'))]
    await page.getByRole('button', { name: 'Set up your workshop' }).click()
    await page.getByLabel('Name of the workshop').waitFor()
    faults.push(...(await hardToUse(page)), ...(await faultsOf(page, 'set up')))

    const served = await serve()
    const { page: lost } = await served.open({ at: '/nowhere' })
    await lost.getByText('There is no such page').waitFor()
    faults.push(...(await faultsOf(lost, 'no such page')))
    expect(faults).toEqual([])
  })

  const repair = '/cars/car-s-101/repairs/repair-boot-floor'
  const forms: readonly (readonly [at: string, opener: string | RegExp])[] = [
    ['/cars', 'Add a car'],
    ['/cars', 'Bring in a CSV file'],
    ['/cars/car-s-101', 'Add a repair'],
    ['/cars/car-s-101', 'Add a task'],
    ['/cars/car-s-101', 'it covers another'],
    ['/cars/car-s-101?sheet=estimate', /^The owner accepts/],
    ['/cars/car-s-101?sheet=money', 'Add a cost'],
    ['/cars/car-s-101?sheet=money', 'Enter what was spent'],
    ['/shop-floor', 'Book a car into a bay'],
    ['/day-sheet', 'log time by hand'],
    [repair, /^Sign off gate/],
    [repair, 'Add photos'],
    [repair, 'Add a finding'],
    [repair, 'something cannot be brought: ask for a release'],
    ['/workshop', 'Add a person'],
    ['/workshop?sheet=bays', 'Add a bay'],
    ['/workshop?sheet=planning', 'Count the fixtures'],
    ['/workshop?sheet=planning', 'Add overtime'],
    ['/workshop?sheet=rates', 'Set rates'],
    ['/workshop?sheet=types', 'New repair type'],
  ]
  browserTest(
    'the forms of the main job hold WCAG 2.2 AA, fit a finger on a phone and on a tablet, and are reached to their ends at 400 %',
    async () => {
      const served = await serve({
        before: (workshop) => {
          const carId = bringInLarkspur(workshop)
          addRepair(workshop, carId, 'Boot floor', { plan: { gates: { opened: photosOnly(1) } } })
          addRepair(workshop, carId, 'Roof gutter', { accepted: false })
        },
      })
      const { page } = await served.open({ size: 'phone' })
      await choosePerson(page, 'Ilse Brandt')
      await signIn(page)
      const faults: string[] = []
      for (const [at, opener] of forms) {
        await show(page, new URL(at, served.url).href)
        await page.getByRole('button', { name: opener }).first().click()
        const sheet = dialog(page, /./)
        await sheet.getByRole('heading', { level: 2 }).waitFor()
        for (const size of ['tablet', 'phone'] as const) {
          await page.setViewportSize(screenSizes[size])
          await painted(page)
          const hard = await hardToUse(page)
          faults.push(...hard.map((words) => `${opener} on ${at} on a ${size}: ${words}`))
        }
        faults.push(...(await faultsOf(page, `${opener} on ${at}`)))
        faults.push(...(await hardToReach(page, sheet)).map((words) => `${opener} on ${at}, ${words}`))
      }
      expect(faults).toEqual([])
    },
  )
})
