import type { MediaAccessPermissionRequest, PermissionCheckHandlerHandlerDetails } from 'electron'
import { expect, test } from 'vitest'
import type { WindowPart } from '../../electron/desktop/desktop.ts'
import { showHost, windowOptions } from '../../electron/window.ts'

const host = 'http://127.0.0.1:4600'

test('the page gets no Node, no preload script and its own sandbox', () => {
  expect(windowOptions.webPreferences).toMatchObject({
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    webviewTag: false,
    plugins: false,
  })
  expect(windowOptions.webPreferences).not.toHaveProperty('preload')
})

test('the window is shown once the host has answered', async () => {
  const { calls } = await shownWindow()
  expect(calls).toEqual([`loadURL ${host}/?secret=1`, 'show'])
})

test.each(['will-navigate', 'will-frame-navigate', 'will-redirect'])(
  '%s stays at the host',
  async (event) => {
    const { isStopped } = await shownWindow()
    expect(isStopped(event, `${host}/cars/4`)).toBe(false)
    for (const url of [
      'http://127.0.0.1:4601/',
      'https://127.0.0.1:4600/',
      'file:///etc/hosts',
      'data:text/html,x',
      'no address',
    ])
      expect(isStopped(event, url), url).toBe(true)
  },
)

test('no other window and no embedded page is ever opened', async () => {
  const { isStopped, windowOpen } = await shownWindow()
  expect(windowOpen({ url: `${host}/cars/4` })).toEqual({ action: 'deny' })
  expect(isStopped('will-attach-webview', host)).toBe(true)
})

test('a report or a photo that would open beside the page is saved as a file instead', async () => {
  const { calls, windowOpen } = await shownWindow()
  for (const path of ['/reports/r1.pdf', '/report-preview/v1/2026-W48.pdf', '/photos/ab/original'])
    expect(windowOpen({ url: host + path })).toEqual({ action: 'deny' })
  expect(calls.slice(2)).toEqual([
    `downloadURL ${host}/reports/r1.pdf`,
    `downloadURL ${host}/report-preview/v1/2026-W48.pdf`,
    `downloadURL ${host}/photos/ab/original`,
  ])
})

test('nothing else is saved by opening it', async () => {
  const { calls, windowOpen } = await shownWindow()
  for (const url of [
    `${host}/cars/4`,
    `${host}/reports/`,
    'https://elsewhere.invalid/reports/r1.pdf',
    'http://127.0.0.1:4601/reports/r1.pdf',
    'file:///reports/r1.pdf',
    'no address',
  ])
    expect(windowOpen({ url }), url).toEqual({ action: 'deny' })
  expect(calls.slice(2)).toEqual([])
})

test('certificate errors are left to the browser, which refuses them', async () => {
  const { events } = await shownWindow()
  expect([...events.keys()]).not.toContain('certificate-error')
})

test('the camera is the only thing the page may ask for', async () => {
  const { isGranted } = await shownWindow()
  expect(isGranted('media', { mediaTypes: ['video'] })).toBe(true)
  expect(isGranted('media', { mediaTypes: ['video', 'audio'] })).toBe(false)
  expect(isGranted('media', { mediaTypes: ['audio'] })).toBe(false)
  expect(isGranted('media', { mediaTypes: [] })).toBe(false)
  expect(isGranted('media', { mediaTypes: ['video'], requestingUrl: 'https://elsewhere.invalid/' })).toBe(
    false,
  )
  for (const permission of [
    'geolocation',
    'notifications',
    'openExternal',
    'clipboard-read',
    'display-capture',
    'usb',
  ])
    expect(isGranted(permission, { mediaTypes: ['video'] }), permission).toBe(false)
})

test('a check without a question answers the same', async () => {
  const { isHeld } = await shownWindow()
  expect(isHeld('media', host, 'video')).toBe(true)
  expect(isHeld('media', host, 'audio')).toBe(false)
  expect(isHeld('media', 'https://elsewhere.invalid', 'video')).toBe(false)
  expect(isHeld('geolocation', host, 'video')).toBe(false)
})

/** A window that notes what is set on it, after the host has been shown in it. */
async function shownWindow() {
  const calls: string[] = []
  const events = new Map<string, (event: { url: string; preventDefault: () => void }) => void>()
  const set: Record<string, (...values: never[]) => unknown> = {}
  const keep = (name: string) => (value: (...values: never[]) => unknown) => (set[name] = value)
  const window = {
    loadURL: async (url: string) => calls.push(`loadURL ${url}`),
    show: () => calls.push('show'),
    webContents: {
      on: (name: string, listener: (event: { url: string; preventDefault: () => void }) => void) =>
        events.set(name, listener),
      setWindowOpenHandler: keep('open'),
      downloadURL: (url: string) => calls.push(`downloadURL ${url}`),
      session: { setPermissionRequestHandler: keep('request'), setPermissionCheckHandler: keep('check') },
    },
  }
  await showHost(window as unknown as WindowPart, `${host}/?secret=1`)

  const isStopped = (name: string, url: string): boolean => {
    let stopped = false
    events.get(name)!({ url, preventDefault: () => (stopped = true) })
    return stopped
  }
  const isGranted = (permission: string, details: Partial<MediaAccessPermissionRequest>): unknown => {
    let granted: unknown
    const answer = (value: boolean) => (granted = value)
    const values = [null, permission, answer, { requestingUrl: `${host}/`, isMainFrame: true, ...details }]
    set.request!(...(values as never[]))
    return granted
  }
  const isHeld = (
    permission: string,
    origin: string,
    mediaType: PermissionCheckHandlerHandlerDetails['mediaType'],
  ) => set.check!(...([null, permission, origin, { isMainFrame: true, mediaType }] as never[]))
  return { calls, events, isStopped, isGranted, isHeld, windowOpen: set.open as (details: object) => object }
}
