import Sqlite from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { databasePath } from '../../db/data-paths.ts'

/** What keeps Chromium from installing the app of this page, and what is wrong with its manifest. */
export async function installTroubles(page: Page): Promise<readonly unknown[]> {
  const session = await page.context().newCDPSession(page)
  const manifest = await session.send('Page.getAppManifest')
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
  await session.detach()
  return [...manifest.errors, ...installabilityErrors]
}

/** When clocks were started, as the journal states it. */
export function clockStarts(dataDir: string): readonly string[] {
  const database = new Sqlite(databasePath(dataDir), { readonly: true })
  try {
    return database
      .prepare(`select happened from journal where kind = 'clockStarted'`)
      .pluck()
      .all() as string[]
  } finally {
    database.close()
  }
}
