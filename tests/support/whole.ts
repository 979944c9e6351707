import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { reportsFolder } from '../../db/data-paths.ts'
import { linkHeads } from '../../db/link-heads.ts'
import { keepDraft, keepPrepared } from '../../db/reports-in-preparation.ts'
import { storeReport } from '../../db/report-files.ts'
import { writeSetting } from '../../db/settings.ts'
import { visitIdSchema } from '../../domain/ids.ts'
import { writeBagFolder } from '../../electron/bag/write-bag.ts'
import { openWholeWorkshop } from '../../electron/whole/whole-bag.ts'
import { recordEveryKind } from '../db/every-kind.ts'
import { createTestHost, type TestHost, type TestScreen } from './host.ts'
import { filesBelow, sha256Of } from './bags.ts'
import { createTestPhoto } from './images.ts'
import { repairPlan } from './plans.ts'
import { repairId } from './car-builder.ts'
import { codes, firstMorning, manager } from './workshop.ts'

/** A folder for the tests of one file, with what removes it. */
export function folderForFile(): { readonly folder: string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), 'panelwright-whole-'))
  return { folder, remove: () => rmSync(folder, { recursive: true }) }
}

/** Every kind of fact, and something of everything that stands beside the journal. */
export async function tellEverything({ workshop, openScreen }: TestHost): Promise<void> {
  const { db, dataDir } = workshop
  const screen = await openScreen()
  const photos: string[] = []
  for (const color of ['#933', '#777', '#345', '#264']) {
    const put = await screen.upload(await createTestPhoto({ width: 60, height: 40, color }))
    photos.push(((await put.json()) as { readonly sha256: string }).sha256)
  }
  const reports = reportsFolder(dataDir!)
  const report = await storeReport(reports, 'pdf', Buffer.from('%PDF-1.7 a report'))
  const page = await storeReport(reports, 'html', Buffer.from('<!doctype html>a report'))
  recordEveryKind(workshop, photos, report, page)
  const second = workshop.addCar('Marrick 2', 'S-102')
  workshop.addRepair(second, repairId('left-sill'), repairPlan('Left sill'))
  const visitId = visitIdSchema.parse('visit-s-102')
  const choices = {
    words: 'The sill\u2028comes next.',
    photos: null,
    crops: [],
    names: true,
    dates: 'none',
    language: 'de',
  } as const
  keepDraft(db, { visitId, week: '2026-W48' }, choices)
  keepPrepared(db, { visitId, week: '2026-W48', preparedAt: workshop.now, problems: ['A photo is gone.'] })
  writeSetting(db, 'demo', '2026-11-26')
  writeSetting(db, 'network', 'open')
  linkHeads(db, workshop.now)
}

/** Writes the workshop of a data folder as a bag. @throws when it is refused */
export async function takeOutTo(dataDir: string, to: string): Promise<void> {
  const whole = openWholeWorkshop(dataDir, firstMorning)
  try {
    const written = await writeBagFolder(whole.bag, to)
    if (!written.ok) throw new Error(`${written.refusal.message} ${written.refusal.next}`)
  } finally {
    whole.close()
  }
}

/** Names of everything in a folder, what is hidden and half-written too. */
export const namesIn = (folder: string): readonly string[] => readdirSync(folder).toSorted()

/** Makes the lists of a bag anew after somebody has changed what is in it, so that only its content gives it away. */
export function listAnew(bag: string): void {
  const manifest = filesBelow(join(bag, 'data')).map((path) => lineOf(bag, `data/${path}`))
  writeFileSync(join(bag, 'manifest-sha256.txt'), manifest.join(''))
  const info = readFileSync(join(bag, 'bag-info.txt'), 'utf8')
  writeFileSync(join(bag, 'bag-info.txt'), info.replace(/^Payload-Oxum: .*\n/m, ''))
  const tags = ['bagit.txt', 'bag-info.txt', 'manifest-sha256.txt'].map((path) => lineOf(bag, path))
  writeFileSync(join(bag, 'tagmanifest-sha256.txt'), tags.join(''))
}

const lineOf = (bag: string, path: string): string => `${sha256Of(join(bag, path))}  ${path}\n`

/** A workshop that came from another one, beside it, with a signed-in manager's screen on each. */
export interface BesideFirst {
  readonly came: TestHost
  readonly screens: readonly [TestScreen, TestScreen]
}

/** Codes do not come along, so that the manager chooses one anew. */
export async function openBesideFirst(first: TestHost, dataDir: string): Promise<BesideFirst> {
  const came = await createTestHost({ dataDir, now: first.workshop.now, setUp: false })
  const screens = [await first.openScreen(), await came.openScreen()] as const
  const code = { personId: manager, newCode: codes[manager]! }
  await screens[1].run('setCode', code, { code: null, id: 'code-anew' })
  for (const screen of screens) await screen.signIn(manager)
  return { came, screens }
}

/** Answers to every view, but for devices and the epoch, which stay with the computer that they are of. */
export function withoutComputer(answers: ReadonlyMap<string, unknown>): Readonly<Record<string, unknown>> {
  const left = Object.fromEntries(answers)
  const session = left['session undefined'] as object
  const copies = left['copies undefined'] as object
  return {
    ...left,
    'copies undefined': { ...copies, restored: null },
    'session undefined': { ...session, device: null, epoch: null },
    'devices undefined': null,
  }
}
