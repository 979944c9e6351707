import { expect, test } from 'vitest'
import { permissions } from '../../domain/roles.ts'
import { killsAsked, runKills } from '../soak/kills.ts'
import { runStoryKills } from '../soak/story-kills.ts'

/** A slice that is quick; `npm run soak -- kills` does 500. */
const kills = killsAsked(12)

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

test(
  'kills while every kind of command is recorded lose nothing that was acknowledged',
  { timeout: 120_000 },
  async () => {
    const figures = await runStoryKills(3, 1)
    expect(figures.problems).toEqual([])
    expect(figures.stories).toBeGreaterThan(0)
    expect(figures.kinds).toBe(Object.keys(permissions).length)
  },
)
