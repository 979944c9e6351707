import axe from 'axe-core'
import type { Page } from 'playwright-core'

/** Rules that are known for WCAG 2.2 at levels A and AA. */
const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa']

/** The violations on the page as it is: the rule, one place where it is broken, and how many more there are. */
export async function violations(page: Page): Promise<readonly string[]> {
  // Evaluated from outside the page, which itself may run no script but its files.
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source)
  return page.evaluate(async (runOnly) => {
    const { axe: here } = window as unknown as { readonly axe: typeof axe }
    const { violations: found } = await here.run(document, { runOnly, resultTypes: ['violations'] })
    return found.map(({ id, help, nodes }) => {
      const place = nodes[0]?.target.join(' ') ?? ''
      return `${id} (${help}) at ${place}${nodes.length > 1 ? ` and ${nodes.length - 1} more` : ''}`
    })
  }, tags)
}
