import { mkdtempSync, rmSync } from 'node:fs'
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
import type { TestHost } from './host.ts'
import { createTestPhoto } from './images.ts'
import { repairPlan } from './plans.ts'
import { repairId } from './car-builder.ts'
import { firstMorning } from './workshop.ts'

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
  } as const
  keepDraft(db, { visitId, week: '2026-W48' }, choices)
  keepPrepared(db, { visitId, week: '2026-W48', preparedAt: workshop.now, problems: ['A photo is gone.'] })
  writeSetting(db, 'demo', '2026-11-26')
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
