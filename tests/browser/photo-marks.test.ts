import { createHash } from 'node:crypto'
import type { Locator, Page } from 'playwright-core'
import { expect } from 'vitest'
import {
  choosePerson,
  comeBackWith,
  dialog,
  placeAtRest,
  strips,
  testPhotoFile,
} from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { hardToUse } from '../support/every-screen.ts'
import { addRepair, bringInLarkspur, photosOnly } from '../support/larkspur.ts'
import { cutNetwork, serve } from '../support/served.ts'

const sha256Of = (bytes: Uint8Array) => createHash('sha256').update(bytes).digest('hex')

/** From one point of the photo to another, in shares of it. */
async function draw(
  page: Page,
  sheet: Locator,
  [x, y]: readonly [number, number],
  to: readonly [number, number],
) {
  const box = await placeAtRest(sheet)
  await page.mouse.move(box.x + x * box.width, box.y + y * box.height)
  await page.mouse.down()
  await page.mouse.move(box.x + to[0] * box.width, box.y + to[1] * box.height, { steps: 4 })
  await page.mouse.up()
}

browserTest(
  'photos from the gallery get a caption and marks while they wait, and show them once they are sent, bytes untouched',
  async () => {
    const served = await serve({
      before: (workshop) => {
        const plan = { gates: { opened: photosOnly(2) } }
        addRepair(workshop, bringInLarkspur(workshop), 'Boot floor', { plan })
      },
    })
    const { page, context } = await served.open({
      size: 'tablet',
      at: '/cars/car-s-101/repairs/repair-boot-floor',
      tolerates: cutNetwork,
    })
    await choosePerson(page, 'Ilse Brandt')
    const files = [await testPhotoFile('hole.jpg'), await testPhotoFile('edge.jpg', '#446688')]
    await context.setOffline(true)
    served.breakConnections()
    await strips(page).getByText('No connection to the host.').waitFor()
    await comeBackWith(page, page.getByRole('button', { name: 'Gallery' }), files)
    const strip = page.getByRole('region', { name: 'Photos just taken' })
    await strip.getByText('2 photos just taken, 2 wait to be sent').waitFor()

    await strip.getByRole('button', { name: /^Photo 1 of 2/ }).click()
    await strip.getByRole('button', { name: 'shows opened, after' }).click()
    const shows = dialog(page, 'What the photo shows')
    await shows.getByRole('radio', { name: 'before' }).check()
    await shows.getByRole('button', { name: 'This one only' }).click()
    await shows.waitFor({ state: 'detached' })
    await strip.getByRole('button', { name: 'shows opened, before' }).waitFor()
    await strip.getByLabel('Caption of the photo').fill('Hole behind the bracket')
    await strip.getByRole('button', { name: 'Draw on it' }).click()
    const drawing = dialog(page, 'Draw on the photo')
    const sheet = drawing.getByTestId('mark-sheet')
    await sheet.locator('svg').waitFor()
    await draw(page, sheet, [0.2, 0.2], [0.5, 0.5])
    await drawing.getByRole('radio', { name: 'circle' }).check()
    await draw(page, sheet, [0.5, 0.5], [0.8, 0.9])
    await drawing.getByRole('button', { name: 'arrow 1' }).press('ArrowUp')
    await drawing.getByRole('button', { name: 'Undo' }).click()
    await drawing.getByRole('img', { name: /marked: 1 arrow and 1 circle/ }).waitFor()
    expect([...(await violations(page)), ...(await hardToUse(page))]).toEqual([])
    await drawing.getByRole('button', { name: 'Keep the marks' }).click()
    await drawing.waitFor({ state: 'detached' })
    await strip
      .getByRole('button', { name: /Hole behind the bracket, marked: 1 arrow and 1 circle/ })
      .waitFor()
    expect(await violations(page)).toEqual([])

    await context.setOffline(false)
    await strip.getByText('2 photos just taken', { exact: true }).waitFor()
    const marked = page.getByRole('img', { name: 'Hole behind the bracket, marked: 1 arrow and 1 circle' })
    await marked.waitFor()
    await page.reload()
    await marked.click()
    const large = dialog(page, 'Hole behind the bracket')
    await large.locator('svg[data-marks="2"]').waitFor()
    await large.getByText('Boot floor, opened, before').waitFor()
    expect(await hardToUse(page)).toEqual([])
    await large.getByRole('button', { name: 'Without marks' }).click()
    await large.locator('svg[data-marks]').waitFor({ state: 'detached' })

    const original = await large.getByRole('link', { name: 'the original file' }).getAttribute('href')
    const answer = await page.request.get(new URL(original ?? '', served.url).href)
    expect(sha256Of(await answer.body())).toBe(sha256Of(files[0]?.buffer ?? Buffer.alloc(0)))
  },
)
