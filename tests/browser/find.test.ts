import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { photosFolder } from '../../db/data-paths.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { attachmentIdSchema } from '../../domain/ids.ts'
import { dialog } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'
import { welder } from '../support/workshop.ts'

const combobox = (page: Page) => page.getByRole('combobox', { name: 'Find in the workshop' })

/** Types into the search that is open, waits for the line, and opens it with the keys alone. */
async function findAndOpen(page: Page, text: string, line: RegExp): Promise<void> {
  await combobox(page).fill(text)
  const option = page.getByRole('option', { name: line })
  await option.waitFor()
  // The first line has the keys at once; the field keeps the focus.
  await expect.poll(() => option.getAttribute('data-focused')).toBe('true')
  await expect
    .poll(() => combobox(page).getAttribute('aria-activedescendant'))
    .toBe(await option.getAttribute('id'))
  await page.keyboard.press('Enter')
  await dialog(page, 'Find').waitFor({ state: 'detached' })
}

/** The list that was found before may still be going; the field then names a line of it. */
async function pointsAtLine(page: Page): Promise<void> {
  await page.waitForFunction(() => {
    const line = document.activeElement?.getAttribute('aria-activedescendant')
    return typeof line === 'string' && document.getElementById(line) !== null
  })
}

browserTest('a car, an owner, a repair, a photo and a note are found by keyboard from anywhere', async () => {
  const sha256 = 'a'.repeat(64)
  const served = await serve({
    before: (workshop) => {
      const carId = bringInLarkspur(workshop)
      const repairId = addRepair(workshop, carId, 'Boot floor')
      const facts = { type: 'jpeg', width: 60, height: 40, orientation: 1, taken: null } as const
      mkdirSync(join(photosFolder(workshop.dataDir ?? ''), 'originals'), { recursive: true })
      recordPhoto(workshop.db, { sha256, byteCount: 1234, facts }, workshop.now)
      const attachmentId = attachmentIdSchema.parse('photo-pinholes')
      const serves = [{ what: 'gate', repairId, gate: 'opened', layerId: null, shows: 'work' }] as const
      const caption = 'Pinholes along the façade'
      workshop.run(
        'attachPhoto',
        { attachmentId, sha256, taken: null, caption, serves: [...serves] },
        { carId, by: welder },
      )
      workshop.run('addNote', { text: 'The hinge pins are in the grey box.' }, { carId })
    },
  })
  const { page, context } = await served.open({
    at: '/variance',
    // The file of the photo is not there; its words are.
    tolerates: [...cutNetwork, /404/],
  })
  await page.getByRole('heading', { level: 1 }).waitFor()

  await page.keyboard.press('Control+k')
  await dialog(page, 'Find').getByText('Cars by name or shell number').waitFor()
  await findAndOpen(page, 's101', /Larkspur 4/)
  await page.getByRole('heading', { level: 1, name: 'Larkspur 4' }).waitFor()

  await page.keyboard.press('/')
  await findAndOpen(page, 'okaf', /R\. Okafor/)
  await page.getByRole('heading', { level: 1, name: 'Larkspur 4' }).waitFor()

  await page.keyboard.press('/')
  await findAndOpen(page, 'floor lark', /Boot floor/)
  await page.getByRole('heading', { level: 1, name: 'Boot floor' }).waitFor()

  await page.keyboard.press('/')
  await findAndOpen(page, 'FACADE', /Pinholes along the façade/)
  await dialog(page, 'Pinholes along the façade').waitFor()
  // Over an open sheet the keys are its own.
  await page.keyboard.press('?')
  await page.keyboard.press('Control+k')
  await page.getByRole('dialog').waitFor()
  await page.keyboard.press('Escape')
  await expect.poll(() => new URL(page.url()).search).toBe('')

  await page.getByRole('button', { name: 'Find', exact: true }).click()
  await findAndOpen(page, 'hinge', /The hinge pins are in the grey box/)
  const line = page.getByRole('listitem').filter({ hasText: 'The hinge pins' })
  await expect.poll(() => line.getAttribute('aria-current')).toBe('true')

  // A field of the screen gets what is typed, and the search opens from it with Ctrl.
  const field = page.getByLabel('Find in the record')
  await field.click()
  await page.keyboard.type('a/b?')
  await expect.poll(() => field.inputValue()).toBe('a/b?')
  await page.keyboard.press('Alt+1')
  await page.keyboard.press('Control+k')
  await combobox(page).fill('nowhere to be seen')
  await dialog(page, 'Find').getByText('Nothing has all of these words.').waitFor()
  expect(new URL(page.url()).pathname).toContain('/cars/')
  for (const [colorScheme, text, line] of [
    ['light', 'larkspur', /Larkspur 4/],
    ['dark', 'boot', /Boot floor/],
  ] as const) {
    await page.emulateMedia({ colorScheme })
    await combobox(page).fill(text)
    await page.getByRole('option', { name: line }).first().waitFor()
    await pointsAtLine(page)
    expect(await violations(page)).toEqual([])
  }
  // Without the host the screens are still found, and it is said why nothing else is.
  await context.setOffline(true)
  served.breakConnections()
  await combobox(page).fill('rep')
  await dialog(page, 'Find').getByText('The host cannot be reached').waitFor()
  await expect
    .poll(() => page.getByRole('option').allTextContents())
    .toEqual(['Owner reports', 'Workshop, Repair types'])
})

browserTest(
  'the keyboard map tells what works everywhere, then what the screen has, and its single keys can be switched off',
  async () => {
    const served = await serve({ before: bringInLarkspur })
    const { page } = await served.open({ at: '/plan' })
    await page.getByRole('heading', { level: 1 }).waitFor()
    await page.keyboard.press('Shift+?')
    const map = dialog(page, 'Keyboard map')
    await map.waitFor()
    const firstGroups = async () => {
      const groups = await map.getByRole('heading', { level: 3 }).allTextContents()
      return groups.slice(0, 2)
    }
    await expect.poll(firstGroups).toEqual(['Everywhere', 'The plan as a drawing'])
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      expect(await violations(page)).toEqual([])
    }
    await map.getByRole('checkbox', { name: /The keys \/ and \?/ }).uncheck()
    await page.keyboard.press('Escape')
    await map.waitFor({ state: 'detached' })

    await page.keyboard.press('/')
    await page.keyboard.press('Shift+?')
    await page.keyboard.press('Alt+4')
    await page.getByRole('heading', { level: 1, name: 'Cars' }).waitFor()
    await page.getByRole('dialog').waitFor({ state: 'detached' })
    await page.reload()
    await page.getByRole('button', { name: 'keyboard map' }).click()
    await map.getByRole('checkbox', { checked: false }).waitFor()
    await page.keyboard.press('Escape')

    // Help is that of the sheet that is shown, by key and at the side.
    await page.goto(new URL('/cars/car-s-101?sheet=estimate', served.url).href)
    await page.getByRole('heading', { level: 1, name: 'Larkspur 4' }).waitFor()
    await page.keyboard.press('F1')
    await page.getByRole('heading', { level: 1, name: 'One car: Estimate' }).waitFor()
    await page.goto(new URL('/workshop?sheet=copies', served.url).href)
    await page.getByRole('link', { name: 'Help', exact: true }).click()
    await page.getByRole('heading', { level: 1, name: 'Workshop: Copies' }).waitFor()
  },
)
