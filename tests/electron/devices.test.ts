import { expect, test } from 'vitest'
import { findBrowser } from '../../electron/browser.ts'
import { runDevices } from '../soak/devices.ts'

/** A slice that is quick; `npm run soak -- devices` runs ten devices for two minutes, two of them browsers. */
const browsers = findBrowser() === undefined ? 0 : 1

test(
  'what is entered on devices while their network and the host break down again and again is there once, and all screens agree',
  { timeout: 400_000 },
  async () => {
    const figures = await runDevices({ devices: 4 + browsers, browsers, seconds: 10, seed: 2_718 })
    expect(figures.problems).toEqual([])
    expect(figures.kills).toBeGreaterThan(0)
    expect(figures.broken).toBeGreaterThan(5)
    expect(figures.commands).toBeGreaterThan(10)
    expect(figures.photos).toBeGreaterThan(5)
    expect(figures.browserPhotos).toBeGreaterThanOrEqual(browsers)
    expect(figures.compared).toBeGreaterThan(50)
  },
)
