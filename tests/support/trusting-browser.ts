import { execFileSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { type BrowserContext, chromium } from 'playwright-core'
import { onTestFinished } from 'vitest'
import { launchSettings, type Screen, screenSettings } from './browser.ts'

/** Starts it; to be closed before it is started again, as all its starts share one profile on disk. */
export type OpenTrustingBrowser = () => Promise<BrowserContext>

/**
 * The browser of a device, which trusts this authority besides those of the system. It goes with the test.
 *
 * @param authority its certificate in DER
 */
export function trustingBrowser(
  authority: Uint8Array,
  screen: Screen,
  flags: readonly string[],
): OpenTrustingBrowser {
  const home = mkdtempSync(join(tmpdir(), 'panelwright-device-'))
  onTestFinished(() => rmSync(home, { recursive: true, force: true }))
  trust(home, authority)
  return async () => {
    const context = await chromium.launchPersistentContext(join(home, 'profile'), {
      ...launchSettings(flags),
      ...screenSettings(screen),
      env: { ...process.env, HOME: home },
    })
    onTestFinished(() => context.close())
    context.setDefaultTimeout(15_000)
    return context
  }
}

/** Ends it as nothing else does: it can tidy nothing up, and its disk has what it had. */
export async function killBrowser(context: BrowserContext): Promise<void> {
  const session = await context.browser()?.newBrowserCDPSession()
  const { processInfo = [] } = (await session?.send('SystemInfo.getProcessInfo')) ?? {}
  const main = processInfo.find(({ type }) => type === 'browser')
  if (main === undefined) throw new Error('There is no browser to be killed.')
  const closed = context.waitForEvent('close')
  process.kill(main.id, 'SIGKILL')
  await closed
}

/** Chromium on Linux takes authorities that a person trusts from here. */
function trust(home: string, authority: Uint8Array): void {
  const store = join(home, '.pki', 'nssdb')
  mkdirSync(store, { recursive: true })
  const file = join(home, 'authority.crt')
  writeFileSync(file, authority)
  certutil('-N', '-d', `sql:${store}`, '--empty-password')
  certutil('-A', '-d', `sql:${store}`, '-t', 'C,,', '-n', 'workshop', '-i', file)
}

function certutil(...args: readonly string[]): void {
  try {
    execFileSync('certutil', args, { stdio: 'pipe' })
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error
    throw new Error('certutil is not here: install libnss3-tools (Debian: apt-get install) and run again.', {
      cause: error,
    })
  }
}
