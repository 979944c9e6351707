import type { Page } from 'playwright-core'
import { expect } from 'vitest'
import { choosePerson, signIn } from '../support/at-screen.ts'
import { browserTest } from '../support/browser.ts'
import { show } from '../support/every-screen.ts'
import { addRepair, bringInLarkspur } from '../support/larkspur.ts'
import { planViewFixture } from '../support/plan-view-fixture.ts'
import { serve, type Served } from '../support/served.ts'

/*
 * What the system asks for: colours of its own, or stillness. Every screen's stillness is seen by every-screen.test.ts; here it
 * is proved that the rule behind it holds.
 */

const serveCar = () =>
  serve({
    before: (workshop) => {
      const carId = bringInLarkspur(workshop)
      addRepair(workshop, carId, 'Boot floor', { passed: 'opened' })
      addRepair(workshop, carId, 'Roof gutter', { accepted: false })
    },
  })

const drawn = [
  '/shop-floor',
  '/plan',
  '/day-sheet',
  '/cars',
  '/cars/car-s-101',
  '/cars/car-s-101?sheet=estimate',
  '/cars/car-s-101?sheet=hours',
  '/cars/car-s-101/repairs/repair-boot-floor',
  '/workshop?sheet=bays',
  '/workshop?sheet=week',
  '/workshop?sheet=limits',
  '/workshop?sheet=types',
]

/**
 * Lines and fills of drawings, and what a box marks, that would be lost on the system's ground: nothing has a colour of the
 * look's own, as the browser leaves drawings alone, and what is chosen keeps a frame, as the browser drops shadows.
 */
function lostInForcedColours(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const colourOf = (system: string) => {
      const probe = document.createElement('i')
      probe.style.color = system
      document.body.append(probe)
      const { color } = getComputedStyle(probe)
      probe.remove()
      return color
    }
    const hueless = (colour: string) => {
      const [red = 0, green = 0, blue = 0] = (colour.match(/[\d.]+/g) ?? []).map(Number)
      const spread = colour.startsWith('rgb') ? 12 : 0.05
      return Math.max(red, green, blue) - Math.min(red, green, blue) <= spread
    }
    const ofSystem = ['Highlight', 'LinkText', 'GrayText', 'VisitedText'].map(colourOf)
    const isAllowed = (colour: string) =>
      colour === 'none' || colour.startsWith('url(') || ofSystem.includes(colour) || hueless(colour)
    const nameOf = (element: Element) =>
      `${element.tagName} ${element.getAttribute('class') ?? ''} '${(element.textContent ?? '').trim().slice(0, 20)}'`
    const drawings = [...document.querySelectorAll('main svg :is(path, rect, line, circle, polygon, text)')]
    const coloured = drawings.flatMap((shape) => {
      const { fill, stroke } = getComputedStyle(shape)
      return [fill, stroke]
        .filter((colour) => !isAllowed(colour))
        .map((colour) => `${nameOf(shape)} stays ${colour}`)
    })
    const marked = [
      ...document.querySelectorAll(
        '[aria-current="page"], .choice:has(input:checked), .choices > [aria-pressed="true"]',
      ),
    ]
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .filter((element) => getComputedStyle(element).outlineStyle === 'none')
      .map((element) => `${nameOf(element)} is chosen and does not show it`)
    return [...coloured.slice(0, 3), ...marked.slice(0, 3)]
  })
}

/** Shapes with a line or a fill that is told from the ground. */
const countDrawn = (page: Page): Promise<number> =>
  page.evaluate(() => {
    const ground = getComputedStyle(document.documentElement).backgroundColor
    return [...document.querySelectorAll('main svg :is(path, rect, line, circle)')].filter((shape) => {
      const { fill, stroke } = getComputedStyle(shape)
      return [fill, stroke].some((colour) => colour !== 'none' && colour !== ground)
    }).length
  })

async function openAs(served: Served, settings: { readonly forcedColors: 'active' | 'none' }) {
  const { page } = await served.open({ settings })
  await choosePerson(page, 'Ilse Brandt')
  await signIn(page)
  return page
}

browserTest(
  'with the system’s own colours drawings take them, and what is chosen keeps a frame',
  async () => {
    const served = await serveCar()
    const page = await openAs(served, { forcedColors: 'active' })
    const plan = { json: { result: { data: planViewFixture() } } }
    await page.route(/\/trpc\/plan(\?|$)/, (route) => route.fulfill(plan))
    const faults: string[] = []
    for (const path of drawn) {
      await show(page, new URL(path, served.url).href)
      if (path === '/plan') await page.getByRole('group', { name: /^The plan, drawn/ }).waitFor()
      for (const colorScheme of ['light', 'dark'] as const) {
        await page.emulateMedia({ colorScheme })
        faults.push(...(await lostInForcedColours(page)).map((words) => `${path}, ${colorScheme}: ${words}`))
      }
    }
    expect(faults).toEqual([])
    await show(page, new URL('/cars/car-s-101/repairs/repair-boot-floor', served.url).href)
    expect(await countDrawn(page)).toBeGreaterThan(10)
  },
)

browserTest('where the system asks for stillness nothing moves, and elsewhere it may', async () => {
  const served = await serveCar()
  const movingIn = async (reducedMotion: 'reduce' | 'no-preference') => {
    const { page } = await served.open({ at: '/cars', settings: { reducedMotion } })
    await page.getByRole('heading', { level: 1, name: 'Cars' }).waitFor()
    return page.evaluate(() => {
      const rules = new CSSStyleSheet()
      rules.replaceSync(
        '@keyframes turn { to { rotate: 1turn } } main h1 { animation: turn 9s infinite; transition: color 9s }',
      )
      document.adoptedStyleSheets = [rules]
      const { animationName, transitionProperty, transitionDuration } = getComputedStyle(
        document.querySelector('main h1')!,
      )
      const moves = document.getAnimations().length
      return { animationName, moves, turns: transitionProperty === 'none' ? '0s' : transitionDuration }
    })
  }
  expect(await movingIn('reduce')).toEqual({ animationName: 'none', moves: 0, turns: '0s' })
  expect(await movingIn('no-preference')).toEqual({ animationName: 'turn', moves: 1, turns: '9s' })
})
