import { describe, expect } from 'vitest'
import { goTo } from '../../electron/window.ts'
import type { WindowPart } from '../../electron/desktop/desktop.ts'
import { browserTest } from '../support/browser.ts'
import { serve } from '../support/served.ts'

describe('menus of the program’s own window', () => {
  browserTest('send the page to its places without loading it anew, and to nothing else', async () => {
    const host = await serve()
    const { page } = await host.open()
    const { origin } = new URL(host.url)
    // As Electron loads an address: the browser itself goes there, not the page.
    const window = {
      webContents: { getURL: () => page.url() },
      loadURL: (url: string) => page.goto(url),
    } as unknown as WindowPart
    const failed: string[] = []
    const send = (place: Parameters<typeof goTo>[2]) =>
      goTo(window, origin, place, (line) => failed.push(line))
    await page.getByRole('heading', { name: 'Shop floor', level: 1 }).waitFor()
    await page.evaluate(() => document.body.setAttribute('data-first', 'yes'))

    send('/owner-reports')
    await page.waitForURL(`${origin}/owner-reports`)
    await page.getByRole('heading', { name: 'Owner reports', level: 1 }).waitFor()
    send('help')
    await page.waitForURL(`${origin}/help?of=owner-reports`)
    send('check')
    await page.waitForURL(`${origin}/workshop?sheet=check`)
    send('car-file')
    await page.waitForURL(`${origin}/cars`)
    await page.getByRole('button', { name: 'Bring in a car’s file' }).waitFor()

    await page.goto(`${origin}/cars#open=https://elsewhere.invalid/`)
    await page.goto(`${origin}/cars#open=//elsewhere.invalid/`)
    await page.goto(`${origin}/cars#plan`)
    await page.getByRole('button', { name: 'Bring in a car’s file' }).waitFor()
    expect(page.url()).toBe(`${origin}/cars#plan`)

    send('keyboard')
    await page.getByRole('dialog', { name: 'Keyboard map' }).waitFor()
    await page.waitForURL(`${origin}/cars`)
    expect(await page.getAttribute('body', 'data-first')).toBe('yes')
    expect(failed).toEqual([])
  })
})
