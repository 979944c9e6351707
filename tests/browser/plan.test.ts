import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { dialog, signIn } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { reachOut } from '../support/every-screen.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { planViewFixture } from '../support/plan-view-fixture.ts'
import { serve, type Served } from '../support/served.ts'

/** The words that are read out last. */
const said = (page: Page) => page.getByRole('main').getByRole('status').last()

/** A car in the metalwork bay with one repair, its first plan made and taken. */
async function withPlanTaken(): Promise<{ readonly served: Served; readonly page: Page }> {
  const served = await serve({
    before: (workshop) => {
      const carId = bringInLarkspur(workshop)
      addRepair(workshop, carId, 'Boot floor')
    },
  })
  const { page } = await served.open({ at: '/plan' })
  await signIn(page)
  const proposal = page.getByRole('region', { name: 'A newer plan' })
  await proposal.getByRole('button', { name: 'Take it', disabled: false }).click()
  await proposal.waitFor({ state: 'detached' })
  return { served, page }
}

/** Puts the focus on the car's stay: the drawing is one stop of the Tab key, and its arrows lead on. */
async function focusStay(page: Page): Promise<void> {
  const stay = page
    .getByRole('group', { name: /^The plan, drawn/ })
    .getByRole('button', { name: /^Larkspur 4 in Metal 1/ })
  await stay.focus()
}

describe('the Plan screen', () => {
  browserTest(
    'a stay is carried by the keys, what comes of it is said, and it becomes a booking',
    async () => {
      const { served, page } = await withPlanTaken()
      await focusStay(page)
      await page.keyboard.press('Space')
      await expect.poll(() => said(page).textContent()).toMatch(/^The Larkspur 4 is picked up/)

      // Escape takes it back.
      await page.keyboard.press('ArrowRight')
      await page.keyboard.press('Escape')
      await expect.poll(() => said(page).textContent()).toBe('Put back where it was.')

      await page.keyboard.press('Space')
      await page.keyboard.press('Shift+ArrowRight')
      const carried = page.getByRole('region', { name: 'What is carried' })
      await carried.getByText('Reckoning…').waitFor({ state: 'detached' })
      await expect.poll(() => said(page).textContent()).toMatch(/No car becomes later|late|later|earlier/)
      await page.keyboard.press('Enter')
      await expect.poll(() => said(page).textContent()).toMatch(/^Booked: the Larkspur 4 in Metal 1/)

      await page.goto(new URL('/shop-floor', served.url).href)
      await page.getByRole('heading', { name: 'Bookings' }).waitFor()
      await page
        .getByText(/Larkspur 4 in/)
        .first()
        .waitFor()
    },
  )

  browserTest('dragged by the mouse it says what comes of it; put down it can be taken back', async () => {
    const { page } = await withPlanTaken()
    const box = await page.locator('g[data-key^="stay"]').first().boundingBox()
    if (box === null) throw new Error('The stay is not drawn.')
    const from = { x: box.x + 20, y: box.y + 14 }
    await page.mouse.move(from.x, from.y)
    await page.mouse.down()
    await page.mouse.move(from.x + 80, from.y + 20, { steps: 4 })
    await page.mouse.move(from.x + 80, from.y + 40, { steps: 4 })
    const carried = page.getByRole('region', { name: 'What is carried' })
    await carried.getByText(/^Jig,/).waitFor()
    await expect
      .poll(() => carried.innerText())
      .toMatch(/No car becomes later|Larkspur 4 (becomes|finished|\d+ days?)/)
    await page.mouse.up()
    await expect.poll(() => said(page).textContent()).toMatch(/^Booked: the Larkspur 4 in Jig/)
    const chosen = page.getByRole('region', { name: 'What is chosen' })
    await chosen.getByRole('button', { name: 'Take it back' }).click()
    await expect.poll(() => said(page).textContent()).toBe('Taken back.')
  })

  browserTest('work is chosen, says why it starts when it does, and is pinned', async () => {
    const { page } = await withPlanTaken()
    await page.getByRole('button', { name: 'Week', exact: true }).click()
    await focusStay(page)
    for (let step = 0; step < 12; step++) {
      await page.keyboard.press('ArrowDown')
      if (await page.getByRole('button', { name: /^Larkspur 4, Boot floor/ }).count()) break
    }
    await page.keyboard.press('Enter')
    const chosen = page.getByRole('region', { name: 'What is chosen' })
    await chosen.getByRole('link', { name: /^Boot floor/ }).waitFor()
    await chosen.getByText('why then').waitFor()
    await chosen.getByRole('button', { name: 'Pin it' }).click()
    await dialog(page, /^Pin Boot floor/)
      .getByRole('button', { name: 'Pin it' })
      .click()
    await dialog(page, /^Pin Boot floor/).waitFor({ state: 'detached' })
  })

  browserTest('what would be if somebody is off is compared, and recorded when it is so', async () => {
    const { served, page } = await withPlanTaken()
    await page.getByRole('link', { name: 'What if' }).click()
    await page.getByLabel('Who', { exact: true }).selectOption({ label: 'Ilse Brandt' })
    await page.getByRole('button', { name: 'Try it' }).click()
    await page.getByText(/^So there would be /).waitFor()
    const compared = page.getByRole('region', { name: /^The plan as it is/ })
    await compared.getByRole('rowheader', { name: 'Larkspur 4' }).waitFor()
    await page.getByRole('button', { name: 'It is so: record it' }).click()
    await compared.waitFor({ state: 'detached' })

    await page.goto(new URL('/plan?sheet=list', served.url).href)
    await page
      .getByText(/off \d+( \w+)? to \d+ \w+/)
      .first()
      .waitFor()
  })

  browserTest('who is not signed in reads the plan and changes nothing', async () => {
    const { served } = await withPlanTaken()
    const { page } = await served.open({ at: '/plan' })
    await focusStay(page)
    await page.keyboard.press('Enter')
    const chosen = page.getByRole('region', { name: 'What is chosen' })
    await chosen.getByRole('link', { name: 'Larkspur 4' }).waitFor()
    await chosen.getByRole('button', { name: 'Move it' }).waitFor({ state: 'detached' })
    await page.keyboard.press('ArrowRight')
    await page.getByRole('region', { name: 'What is carried' }).waitFor({ state: 'detached' })
  })
})

/** The screen with a plan of 20 cars and 1,500 pieces of work in place of the small workshop's own. */
async function withLargePlan(size: 'desktop' | 'phone'): Promise<Page> {
  const served = await serve()
  const { page } = await served.open({ size })
  const view = planViewFixture()
  await page.route(/\/trpc\/plan(\?|$)/, (route) => route.fulfill({ json: { result: { data: view } } }))
  await page.goto(new URL('/plan', served.url).href)
  await page.getByRole('heading', { level: 1, name: 'Plan' }).waitFor()
  return page
}

describe('a large plan', () => {
  browserTest('only what is in sight is in the page, and it follows the scrolling', async () => {
    const page = await withLargePlan('desktop')
    await page.getByRole('button', { name: 'Week', exact: true }).click()
    const drawing = page.getByRole('group', { name: /^The plan, drawn/ })
    const keys = () =>
      drawing
        .locator('g[data-key^="work"]')
        .evaluateAll((blocks) => blocks.map((block) => block.getAttribute('data-key')))
    const first = await keys()
    expect(first.length).toBeGreaterThan(20)
    expect(first.length).toBeLessThan(400)
    await drawing.evaluate((element) => element.scrollBy({ left: 8_000 }))
    await expect.poll(async () => (await keys()).some((key) => first.includes(key))).toBe(false)
    expect((await keys()).length).toBeGreaterThan(20)
  })

  browserTest('the wheel with Ctrl held zooms around the pointer', async () => {
    const page = await withLargePlan('desktop')
    const drawing = page.getByRole('group', { name: /^The plan, drawn/ })
    const width = () => drawing.evaluate((element) => element.scrollWidth)
    const before = await width()
    await drawing.hover({ position: { x: 600, y: 100 } })
    await page.keyboard.down('Control')
    await page.mouse.wheel(0, -300)
    await page.keyboard.up('Control')
    await expect.poll(width).toBeGreaterThan(before * 1.5)
  })

  browserTest('a phone is given the list in place of the drawing', async () => {
    const page = await withLargePlan('phone')
    await page.getByRole('heading', { name: 'Wren' }).waitFor()
    await page.getByRole('group', { name: /^The plan, drawn/ }).waitFor({ state: 'detached' })
    expect([...(await violations(page)), ...(await reachOut(page))]).toEqual([])
  })

  browserTest('drawing, list and what-if hold WCAG 2.2 AA in light and dark', async () => {
    const page = await withLargePlan('desktop')
    const faults: string[] = []
    for (const sheet of ['drawing', 'list', 'what-if']) {
      await page.goto(new URL(`/plan?sheet=${sheet}`, page.url()).href)
      await page.getByRole('heading', { level: 1, name: 'Plan' }).waitFor()
      if (sheet === 'drawing') await page.getByRole('button', { name: '3 months' }).click()
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        faults.push(...(await violations(page)).map((words) => `${sheet}, ${colorScheme}: ${words}`))
      }
      faults.push(...(await reachOut(page)))
    }
    expect(faults).toEqual([])
  })
})
