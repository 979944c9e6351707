import { readFileSync, rmSync } from 'node:fs'
import type { Page } from 'playwright-core'
import { describe, expect } from 'vitest'
import { checkPictures, keptFile } from '../pictures/check-pictures.ts'
import { compareWithKept, isSame } from '../pictures/compare-pictures.ts'
import { pictures } from '../pictures/screens.ts'
import { openStandingDemo, pictureOf } from '../pictures/standing-demo.ts'
import { browserTest } from '../support/browser.ts'
import { copyFilledDemo } from '../support/filled-demo.ts'

/** What somebody might do to the Shop floor unawares; each on the page as it was before. */
const changes: Readonly<Record<string, () => void>> = {
  'the floor lies 16 px lower': () => {
    const floor = document.querySelector<HTMLElement>('main .floor-plan')
    if (floor !== null) floor.style.transform = 'translateY(16px)'
  },
  'nobody is on the clock': () => {
    const heading = [...document.querySelectorAll('h2')].find((each) => each.textContent === 'On the clock')
    const section = heading?.closest<HTMLElement>('section')
    if (section) section.style.visibility = 'hidden'
  },
  'the accent is blue': () => {
    document.documentElement.style.setProperty('--accent', '#1747b2')
    document.documentElement.style.setProperty('--accent-ink', '#0a3086')
  },
  'letters are a tenth larger': () => {
    document.documentElement.style.fontSize = '110%'
  },
}

describe('the looks of the screens', () => {
  browserTest('are those that are kept, and what somebody changes of them is seen', async () => {
    const dataDir = await copyFilledDemo()
    const demo = await openStandingDemo(dataDir)
    try {
      // Where this was wanted: npm run pictures -- --write
      expect(await checkPictures(demo)).toEqual([])
      expect(await unseen(demo.show)).toEqual([])
    } finally {
      await demo.close()
      rmSync(dataDir, { recursive: true, force: true })
    }
  })
})

/** The changes that a comparison with the kept picture does not see. */
async function unseen(
  show: (picture: (typeof pictures)[number]) => Promise<Page>,
): Promise<readonly string[]> {
  const [shopFloor] = pictures
  if (shopFloor === undefined) throw new Error('There is no picture of the Shop floor.')
  const kept = readFileSync(keptFile(shopFloor))
  const missed: string[] = []
  for (const [words, change] of Object.entries(changes)) {
    const page = await show(shopFloor)
    await page.evaluate(change)
    if (isSame(await compareWithKept(await pictureOf(page), kept))) missed.push(words)
  }
  return missed
}
