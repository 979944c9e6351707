import { chromium, type Browser, type BrowserContext, type BrowserContextOptions } from 'playwright-core'
import { test } from 'vitest'
import { findBrowser, quietFlags } from '../../electron/browser.ts'

/** Screens that every page is tried on, in CSS pixels. */
export const screenSizes = {
  desktop: { width: 1440, height: 900 },
  tablet: { width: 1280, height: 800 },
  phone: { width: 390, height: 844 },
} as const
export type ScreenSize = keyof typeof screenSizes

export interface Screen {
  readonly size?: ScreenSize
  readonly colorScheme?: 'light' | 'dark'
  /** Extra Playwright settings, such as an address the paths start from. */
  readonly settings?: BrowserContextOptions
}

const browserPath = findBrowser()

/**
 * The panels under the address bar are pages of their own, got ready for every screen, and took half a second of processor
 * time each. Chromium goes by the last list that it is given, so Playwright's own list stands before them.
 */
const featuresOff = [
  'AvoidUnnecessaryBeforeUnloadCheckSync',
  'DestroyProfileOnBrowserClose',
  'HttpsUpgrades',
  'HttpsFirstBalancedModeAutoEnable',
  'LensOverlay',
  'MediaRouter',
  'PaintHolding',
  'ThirdPartyStoragePartitioning',
  'AvoidCorsURLLoaderRestartOnRedirect',
  'TcpPortRandomizationWin',
  'OptimizationHints',
  'NetworkTimeServiceQuerying',
  'AimEnabled',
  'PreconnectToSearch',
  'WebUIOmniboxPopup',
  'WebUIOmniboxAimPopup',
]

/** `test`, skipped where there is no browser; the report then says so in a banner. */
export const browserTest = test.skipIf(browserPath === undefined)

/**
 * A headless Chromium; the caller closes it. Fails when none is installed: use inside `browserTest` or its hooks.
 *
 * @param flags more of them, such as where an address is found that this computer does not have
 */
export async function launchBrowser(flags: readonly string[] = []): Promise<Browser> {
  return chromium.launch(launchSettings(flags))
}

/** How every browser of the tests is started. @throws Error when none is installed */
export function launchSettings(flags: readonly string[]) {
  if (browserPath === undefined) throw new Error('No Chromium-family browser was found: install one.')
  return {
    executablePath: browserPath,
    args: [
      '--disable-gpu',
      '--disable-quic',
      `--disable-features=${featuresOff.join(',')}`,
      ...quietFlags(process.getuid?.() === 0),
      ...flags,
    ],
  }
}

/** A fresh screen: its own cookies and storage, touch on tablet and phone. Times are Berlin's, texts English. */
export async function newScreen(browser: Browser, screen: Screen = {}): Promise<BrowserContext> {
  return browser.newContext(screenSettings(screen))
}

/** Playwright's settings of a screen. */
export function screenSettings({ size = 'desktop', colorScheme = 'light', settings }: Screen) {
  return {
    viewport: screenSizes[size],
    colorScheme,
    hasTouch: size !== 'desktop',
    isMobile: size === 'phone',
    locale: 'en-GB',
    timezoneId: 'Europe/Berlin',
    reducedMotion: 'reduce',
    ...settings,
  } as const
}
