import type { BrowserWindowConstructorOptions } from 'electron'
import { type MenuPlace, placeToFragment } from '../domain/screens.ts'
import { type ContentsPart, type SessionPart, TITLE, type WindowPart } from './desktop/desktop.ts'

/** The page is a stranger to the machine: no preload script, no Node, its own process in the sandbox. */
export const windowOptions: BrowserWindowConstructorOptions = {
  minWidth: 390,
  minHeight: 600,
  title: TITLE,
  show: false,
  webPreferences: {
    sandbox: true,
    contextIsolation: true,
    nodeIntegration: false,
    nodeIntegrationInWorker: false,
    nodeIntegrationInSubFrames: false,
    webSecurity: true,
    webviewTag: false,
    // Chromium's PDF viewer would come with it: the page says instead that the file is saved and opened outside.
    plugins: false,
    spellcheck: false,
  },
}

/**
 * Shows the host in a window that can go nowhere else.
 *
 * @param url the host's address with the window's one-time secret
 */
export async function showHost(window: WindowPart, url: string): Promise<void> {
  const { origin } = new URL(url)
  lockNavigation(window.webContents, origin)
  allowOnlyCamera(window.webContents.session, origin)
  await window.loadURL(url)
  window.show()
}

/**
 * Sends the page to one of its own places: by the fragment of the address that it shows, so that it is not loaded anew and
 * nothing but the name of the place reaches it.
 */
export function goTo(
  window: WindowPart,
  origin: string,
  place: MenuPlace,
  log: (line: string) => void,
): void {
  const shown = window.webContents.getURL()
  const page = isAt(origin, shown) ? shown.replace(/#.*$/s, '') : `${origin}/`
  window.loadURL(page + placeToFragment(place)).catch((error: unknown) => log(`window: ${String(error)}`))
}

function lockNavigation(contents: ContentsPart, origin: string): void {
  contents.on('will-navigate', (event) => {
    if (!isAt(origin, event.url)) event.preventDefault()
  })
  contents.on('will-frame-navigate', (event) => {
    if (!isAt(origin, event.url)) event.preventDefault()
  })
  contents.on('will-redirect', (event) => {
    if (!isAt(origin, event.url)) event.preventDefault()
  })
  contents.on('will-attach-webview', (event) => event.preventDefault())
  contents.setWindowOpenHandler(({ url }) => {
    if (isFileAt(origin, url)) contents.downloadURL(url)
    return { action: 'deny' }
  })
}

/** What the page opens beside itself: reports and whole photos. They are saved where the person says; no second window. */
function isFileAt(origin: string, url: string): boolean {
  return isAt(origin, url) && /^\/(reports|report-preview|photos)\/./.test(new URL(url).pathname)
}

/** Photos are taken on the page; nothing else that needs leave is ever asked for. Sound is refused with the picture. */
function allowOnlyCamera(session: SessionPart, origin: string): void {
  session.setPermissionRequestHandler((_contents, permission, answer, details) => {
    const wanted = 'mediaTypes' in details ? (details.mediaTypes ?? []) : []
    const isCameraOnly =
      permission === 'media' && wanted.length > 0 && wanted.every((type) => type === 'video')
    answer(isCameraOnly && isAt(origin, details.requestingUrl))
  })
  session.setPermissionCheckHandler(
    (_contents, permission, requestingOrigin, details) =>
      permission === 'media' && details.mediaType === 'video' && isAt(origin, requestingOrigin),
  )
}

function isAt(origin: string, url: string): boolean {
  return URL.canParse(url) && new URL(url).origin === origin
}
