import { expect, test } from 'vitest'
import { killsAsked, runKills } from '../soak/kills.ts'

/** A slice that is quick; `npm run soak -- kills` does 200. */
const kills = killsAsked(20)

test(
  `after each of ${kills} kills of the host while it is written to, all that was acknowledged is there and nothing by half`,
  { timeout: kills * 30_000 },
  async () => {
    const figures = await runKills(kills, 1_618)
    expect(figures.problems).toEqual([])
    expect(figures.kills).toBe(kills)
    expect(figures.commands).toBeGreaterThan(kills * 5)
    expect(figures.photos).toBeGreaterThan(kills / 2)
    expect(figures.unanswered).toBeGreaterThan(kills)
  },
)
