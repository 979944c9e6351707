import process from 'node:process'
import { expect, test } from 'vitest'
import { runKills } from '../soak/kills.ts'

/** A slice that is quick; `npm run soak -- kills` does 200, and PANELWRIGHT_KILLS any number here. */
const kills = Number(process.env.PANELWRIGHT_KILLS ?? 20)

test(
  `after each of ${kills} kills at random moments every acknowledged command is there and none by half`,
  { timeout: kills * 15_000 },
  async () => {
    const figures = await runKills(kills, 1_618)
    expect(figures.problems).toEqual([])
    expect(figures.acknowledged).toBeGreaterThan(kills * 5)
    expect(figures.photos).toBeGreaterThan(kills / 2)
  },
)
