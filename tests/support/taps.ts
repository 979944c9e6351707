import type { Page } from 'playwright-core'

/** Counts what a hand does on this page from now on: taps, and keys of a keyboard. Taps in the camera are not ours. */
export async function countTaps(page: Page): Promise<() => Promise<number>> {
  const counter = await page.evaluateHandle(() => {
    const count = { taps: 0 }
    const isReal = (event: Event) => event.isTrusted && (count.taps += 1)
    addEventListener('pointerdown', isReal, { capture: true })
    addEventListener('keydown', isReal, { capture: true })
    return count
  })
  return () => counter.evaluate(({ taps }) => taps)
}
