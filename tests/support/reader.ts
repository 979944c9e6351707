import type { Locator, Page } from 'playwright-core'

/** What a screen reader is given: the tree of a screen, and what is said by itself. */

/** Roles, names and states, without where links lead, and with the time of day left open. */
export async function treeOf(place: Locator): Promise<string> {
  const tree = await place.ariaSnapshot()
  return tree
    .split('\n')
    .filter((line) => !line.trim().startsWith('- /url:'))
    .map((line) => line.replace(/\b\d\d:\d\d\b/g, 'hh:mm').replace(/\b\d+ min\b/g, 'n min'))
    .join('\n')
}

/** Writes down from now on what is said by itself on this page, until it is loaded anew. */
export async function listen(page: Page): Promise<() => Promise<readonly string[]>> {
  await page.getByRole('status', { name: 'Just now' }).evaluate((region) => {
    const heard: string[] = []
    Object.assign(window, { heard })
    new MutationObserver((changes) => {
      for (const { addedNodes } of changes) for (const node of addedNodes) heard.push(node.textContent ?? '')
    }).observe(region, { childList: true })
  })
  return () => page.evaluate(() => (window as unknown as { readonly heard: readonly string[] }).heard)
}

/**
 * What reads badly on the page as it is: headings that skip a level, landmarks that cannot be told apart, lists of nothing,
 * controls and pictures without a name, marks in a name that are read out as their sign, and the screen one is on.
 */
export async function hardToHear(page: Page): Promise<readonly string[]> {
  const lines = (await page.locator('body').ariaSnapshot()).split('\n').map((line) => line.trim())
  const faults = lines.flatMap((line) => {
    if (/^- (list|table|group|region|complementary|navigation)$/.test(line)) return [`says nothing: ${line}`]
    if (/^- (button|link|textbox|combobox|checkbox|radio|img|spinbutton|dialog)( \[.*\])?:?$/.test(line))
      return [`has no name: ${line}`]
    if (/^- '?(button|link|radio|checkbox|heading) "[^"]*[✓✗×←→]/.test(line))
      return [`a sign in its name: ${line}`]
    return []
  })
  return [...faults, ...headingFaults(lines), ...landmarkFaults(lines), ...(await currentFaults(page))]
}

function headingFaults(lines: readonly string[]): readonly string[] {
  const levels = lines.flatMap((line) => /^- '?heading .*\[level=(\d)\]/.exec(line)?.[1] ?? []).map(Number)
  const skips = levels.flatMap((level, at) => {
    const before = levels[at - 1] ?? 0
    return level > before + 1 ? [`a heading of level ${level} after one of level ${before}`] : []
  })
  const tops = levels.filter((level) => level === 1).length
  return tops === 1 ? skips : [...skips, `${tops} headings of level 1`]
}

/** Two of one kind need names that differ. */
function landmarkFaults(lines: readonly string[]): readonly string[] {
  const marks = lines.flatMap(
    (line) => /^- '?((?:main|navigation|complementary|region|banner)(?: "[^"]*")?)'?:?/.exec(line)?.[1] ?? [],
  )
  const twice = marks.filter((mark, at) => marks.indexOf(mark) !== at)
  return [...(marks.includes('main') ? [] : ['no main']), ...twice.map((mark) => `a second ${mark}`)]
}

/**
 * The screen one is on is said in what navigates: a part of it, as a repair, counts as its screen. A link elsewhere says so only
 * if it leads to what is shown, as the way back from a repair to its car does not.
 */
async function currentFaults(page: Page): Promise<readonly string[]> {
  const shown = page.getByRole('navigation', { name: 'Screens' }).locator('[aria-current="page"]:visible')
  const isElsewhere = /^\/(help|card)/.test(new URL(page.url()).pathname)
  const wrong = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLAnchorElement>('main a[aria-current="page"]')]
      .filter((link) => !link.closest('nav') && link.checkVisibility({ visibilityProperty: true }))
      .filter(({ pathname, search }) => pathname + search !== location.pathname + location.search)
      .map((link) => `not the current page, and says so: ${(link.textContent ?? '').trim().slice(0, 40)}`),
  )
  return (await shown.count()) > 0 || isElsewhere ? wrong : [...wrong, 'no screen is the current one']
}
