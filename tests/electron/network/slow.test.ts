import { expect } from 'vitest'
import { MOST_CONNECTIONS } from '../../../electron/network/connection-count.ts'
import { runSlow } from '../../soak/slow.ts'
import { loopbacksTest } from '../../support/loopbacks.ts'

/** A slice that is quick and opens fewer files than the 1,024 that some systems allow; `npm run soak -- slow` tries 10,000. */
const run = { attempts: 1_600, wave: 400, sources: 300, bound: '127.0.0.8' }

loopbacksTest(
  'hundreds of slow connections from everywhere keep neither the window nor a paired tablet from its answers',
  { timeout: 120_000 },
  async () => {
    const figures = await runSlow(run)
    expect(figures.problems).toEqual([])
    expect(figures.failed).toEqual({})
    expect(figures.connected).toBe(run.attempts)
    expect(figures.mostHeld).toBeGreaterThan(MOST_CONNECTIONS.inAll / 2)
    expect(figures.mostHeld).toBeLessThanOrEqual(MOST_CONNECTIONS.inAll)
    expect(figures.own.answers).toBe(run.attempts / run.wave)
    expect(figures.tablet.answers).toBe(run.attempts / run.wave)
    expect(figures.rssPeakMb - figures.rssBeforeMb).toBeLessThan(200)
  },
)
