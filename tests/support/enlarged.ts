import type { Locator, Page } from 'playwright-core'
import { reachOut } from './every-screen.ts'

/** WCAG 1.4.10: 1280 x 1024 at 400 %. */
const REFLOW = { width: 320, height: 256 }
/** 1440 x 900 at 200 %. */
const DOUBLED = { width: 720, height: 450 }
const ENLARGED = [
  ['at 400 %', REFLOW],
  ['at 200 %', DOUBLED],
] as const
/** WCAG 1.4.12: the least room that letters, words, lines and paragraphs must be able to take. */
const TEXT_SPACING =
  '* { line-height: 1.5 !important; letter-spacing: 0.12em !important; word-spacing: 0.16em !important }' +
  'p { margin-bottom: 2em !important }'

/** What reaches out of the screen or is cut off with letters twice and four times as large, and set wide. */
export async function hardToRead(page: Page): Promise<readonly string[]> {
  const usual = page.viewportSize() ?? DOUBLED
  const faults: string[] = []
  const look = async (how: string) => {
    await painted(page)
    const [out, cut] = await Promise.all([reachOut(page), cutOff(page)])
    faults.push(...[...out, ...cut].map((words) => `${how}: ${words}`))
  }
  for (const [how, size] of ENLARGED) {
    await page.setViewportSize(size)
    await look(how)
  }
  await page.setViewportSize(usual)
  await setWide(page)
  await look('set wide')
  await page.evaluate(() => {
    document.adoptedStyleSheets = []
  })
  return faults
}

/** Where an open sheet reaches out of the screen or cannot be scrolled to its end, with letters twice and four times as large. */
export async function hardToReach(page: Page, sheet: Locator): Promise<readonly string[]> {
  const usual = page.viewportSize() ?? DOUBLED
  const faults: string[] = []
  for (const [how, size] of ENLARGED) {
    await page.setViewportSize(size)
    await painted(page)
    const found = await sheet.evaluate((element) => {
      const paper = element.parentElement ?? element
      const { left, right, top, bottom } = paper.getBoundingClientRect()
      const { scrollWidth, clientWidth, scrollHeight, clientHeight } = paper
      const scrolls = ['auto', 'scroll'].includes(getComputedStyle(paper).overflowY)
      return [
        ...(left < -1 || right > innerWidth + 1 || scrollWidth > clientWidth + 1 ? ['too wide'] : []),
        ...(top < -1 || bottom > innerHeight + 1 ? ['too high'] : []),
        ...(scrollHeight > clientHeight + 1 && !scrolls ? ['its end is cut off'] : []),
      ]
    })
    faults.push(...found.map((words) => `${how}: ${words}`))
  }
  await page.setViewportSize(usual)
  return faults
}

/** Until what follows a change of the screen's size has been done and drawn. */
export const painted = (page: Page): Promise<null> =>
  page.evaluate(
    () => new Promise<null>((done) => requestAnimationFrame(() => requestAnimationFrame(() => done(null)))),
  )

/** Sets all text as wide as readers may set it, until the page is loaded anew. */
export const setWide = (page: Page): Promise<void> =>
  page.evaluate((rules) => {
    const sheet = new CSSStyleSheet()
    sheet.replaceSync(rules)
    document.adoptedStyleSheets = [sheet]
  }, TEXT_SPACING)

/** Boxes that hide a part of their words; those that end in three dots say so, and stand in full elsewhere. */
function cutOff(page: Page): Promise<readonly string[]> {
  return page.evaluate(() => {
    const hides = (overflow: string) => overflow === 'hidden' || overflow === 'clip'
    return [...document.querySelectorAll('main *')]
      .filter((element) => !element.closest('svg, .hidden-word') && element.clientWidth > 2)
      .filter((element) => element.checkVisibility({ visibilityProperty: true }))
      .filter((element) => {
        const { overflowX, overflowY, textOverflow, webkitLineClamp } = getComputedStyle(element)
        if (textOverflow === 'ellipsis' || webkitLineClamp !== 'none') return false
        const { scrollWidth, clientWidth, scrollHeight, clientHeight } = element
        return (
          (hides(overflowX) && scrollWidth > clientWidth + 1) ||
          (hides(overflowY) && scrollHeight > clientHeight + 1)
        )
      })
      .map((element) => `cut off: ${element.tagName} '${(element.textContent ?? '').trim().slice(0, 40)}'`)
      .slice(0, 4)
  })
}
