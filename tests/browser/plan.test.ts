import type { Locator, Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { dialog, placeAtRest, signIn } from '../support/at-screen.ts'
import { violations } from '../support/axe.ts'
import { browserTest } from '../support/browser.ts'
import { setWide } from '../support/enlarged.ts'
import { reachOut } from '../support/every-screen.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { planViewFixture } from '../support/plan-view-fixture.ts'
import { serve, type Served } from '../support/served.ts'

/** The words that are read out last. */
const said = (page: Page) => page.getByRole('main').getByRole('status').last()

/** What comes of it when the only car, promised for March, is begun a week later. */
const WEEK_LATER = /^Larkspur 4 finished \d+ days later, still on time$/

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

const drawingOf = (page: Page) => page.getByRole('group', { name: /^The plan, drawn/ })

/** Puts the focus on the car's stay: the drawing is one stop of the Tab key, and its arrows lead on. */
async function focusStay(page: Page): Promise<void> {
  await drawingOf(page)
    .getByRole('button', { name: /^Larkspur 4 in Metal 1/ })
    .focus()
}

/** Goes down by one row, and waits until the focus has gone there: the drawing has a button where the focus is, and no other. */
async function goDown(page: Page): Promise<Locator> {
  const here = drawingOf(page).getByRole('button')
  const from = await here.getAttribute('data-key')
  await page.keyboard.press('ArrowDown')
  await expect.poll(() => here.getAttribute('data-key')).not.toBe(from)
  return here
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
      await carried.getByText(WEEK_LATER).waitFor()
      await expect.poll(() => said(page).textContent()).toMatch(WEEK_LATER)
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
    const box = await placeAtRest(page.locator('g[data-key^="stay"]').first())
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
    let words: string | null = null
    while (words === null || !words.startsWith('Larkspur 4, Boot floor'))
      words = await (await goDown(page)).getAttribute('aria-label')
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
    // What a manager would pick up stays where it is, and the arrows lead on.
    await page.keyboard.press('Space')
    await goDown(page)
    await page.getByRole('region', { name: 'What is carried' }).waitFor({ state: 'detached' })
  })
})

/** The screen with a plan of 20 cars and 1,500 pieces of work in place of the small workshop's own. */
async function withLargePlan(size: 'desktop' | 'phone', view = planViewFixture()): Promise<Page> {
  const served = await serve()
  const { page } = await served.open({ size })
  await page.route(/\/trpc\/plan(\?|$)/, (route) => route.fulfill({ json: { result: { data: view } } }))
  await page.goto(new URL('/plan', served.url).href)
  await page.getByRole('heading', { level: 1, name: 'Plan' }).waitFor()
  return page
}

describe('a large plan', () => {
  browserTest('only what is in sight is in the page, and it follows the scrolling', async () => {
    const page = await withLargePlan('desktop')
    await page.getByRole('button', { name: 'Week', exact: true }).click()
    await page.getByRole('button', { name: 'Week', exact: true, pressed: true }).waitFor()
    const drawing = drawingOf(page)
    const keys = () =>
      drawing
        .locator('g[data-key^="work"]')
        .evaluateAll((blocks) => blocks.map((block) => block.getAttribute('data-key')))
    await expect.poll(async () => (await keys()).length).toBeGreaterThan(20)
    const first = await keys()
    expect(first.length).toBeLessThan(400)
    await drawing.evaluate((element) => element.scrollBy({ left: 8_000 }))
    const nowDrawn = async () => {
      const now = await keys()
      return { isMany: now.length > 20, isOld: now.some((key) => first.includes(key)) }
    }
    await expect.poll(nowDrawn).toEqual({ isMany: true, isOld: false })
  })

  browserTest('the wheel with Ctrl held zooms around the pointer', async () => {
    const page = await withLargePlan('desktop')
    const drawing = drawingOf(page)
    const width = () => drawing.evaluate((element) => element.scrollWidth)
    const before = await width()
    await drawing.hover({ position: { x: 600, y: 100 } })
    await page.keyboard.down('Control')
    await page.mouse.wheel(0, -300)
    await page.keyboard.up('Control')
    await expect.poll(width).toBeGreaterThan(before * 1.5)
  })

  browserTest('skills that find no room beside a row are read in full once the row is chosen', async () => {
    const skills = ['sheet metal', 'preparation', 'fitting', 'welding', 'painting']
    const view = planViewFixture()
    const people = view.people.map((person) => ({ ...person, skills }))
    const page = await withLargePlan('desktop', { ...view, people })
    await setWide(page)
    const name = drawingOf(page).getByText(view.people[0]?.name ?? '', { exact: true })
    const isCut = () =>
      name.evaluate(
        ({ parentElement }) => (parentElement?.scrollHeight ?? 0) > (parentElement?.clientHeight ?? 0) + 1,
      )
    await expect.poll(isCut).toBe(true)
    await name.click()
    const full = page
      .getByRole('region', { name: 'What is chosen' })
      .getByText(skills.join(', '), { exact: true })
    await full.waitFor()
    expect(await full.evaluate((element) => element.scrollWidth <= element.clientWidth)).toBe(true)
  })

  browserTest('a phone is given the list in place of the drawing', async () => {
    const page = await withLargePlan('phone')
    await page.getByRole('heading', { name: 'Wren' }).waitFor()
    await drawingOf(page).waitFor({ state: 'detached' })
    expect([...(await violations(page)), ...(await reachOut(page))]).toEqual([])
  })

  browserTest('drawing, list and what-if hold WCAG 2.2 AA in light and dark', async () => {
    const page = await withLargePlan('desktop')
    // Only a manager is given the what-if.
    await signIn(page)
    const faults: string[] = []
    const sheets = {
      drawing: page.getByRole('button', { name: '3 months' }),
      list: page.getByRole('heading', { name: 'Wren' }),
      'what-if': page.getByRole('button', { name: 'Try it' }),
    }
    for (const [sheet, part] of Object.entries(sheets)) {
      await page.goto(new URL(`/plan?sheet=${sheet}`, page.url()).href)
      await part.waitFor()
      if (sheet === 'drawing') {
        await part.click()
        await page.getByRole('button', { name: '3 months', pressed: true }).waitFor()
      }
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        faults.push(...(await violations(page)).map((words) => `${sheet}, ${colorScheme}: ${words}`))
      }
      faults.push(...(await reachOut(page)))
    }
    expect(faults).toEqual([])
  })
})
