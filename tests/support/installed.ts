import Sqlite from 'better-sqlite3'
import type { Page } from 'playwright-core'
import { databasePath } from '../../db/data-paths.ts'
import type { FactKind } from '../../domain/facts.ts'

/** What keeps Chromium from installing the app of this page, and what is wrong with its manifest. */
export async function installTroubles(page: Page): Promise<readonly unknown[]> {
  const session = await page.context().newCDPSession(page)
  const manifest = await session.send('Page.getAppManifest')
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors')
  await session.detach()
  return [...manifest.errors, ...installabilityErrors]
}

/** All answers that a page has left in its browser, as text: to be run in the page. */
export async function keptAnswers(): Promise<string> {
  const opening = indexedDB.open('panelwright-views')
  const database = await new Promise<IDBDatabase>((resolve) => {
    opening.onsuccess = () => resolve(opening.result)
  })
  const reading = database.transaction('views').objectStore('views').getAll()
  const views = await new Promise<unknown[]>((resolve) => {
    reading.onsuccess = () => resolve(reading.result)
  })
  return JSON.stringify(views)
}

/** When facts of this kind happened, as the journal of the data folder states it. */
export function factsOf(dataDir: string, kind: FactKind): readonly string[] {
  const database = new Sqlite(databasePath(dataDir), { readonly: true })
  try {
    return database.prepare('select happened from journal where kind = ?').pluck().all(kind) as string[]
  } finally {
    database.close()
  }
}
