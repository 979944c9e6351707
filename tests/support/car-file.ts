import { openPhotoStore } from '../../db/photos/photo-store.ts'
import { inspectPhoto } from '../../db/photos/inspect-photo.ts'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import { recordPhoto } from '../../db/photo-rows.ts'
import { storeReport } from '../../db/report-files.ts'
import type { CarId } from '../../domain/ids.ts'
import { recordEveryKind } from '../db/every-kind.ts'
import { createTestPhoto } from './images.ts'
import { createWorkshop, type Workshop } from './workshop.ts'

export interface FiledCar {
  readonly workshop: Workshop
  readonly carId: CarId
  /** Digests of the photos that are attached to it. */
  readonly photos: readonly string[]
}

/** A car whose chain holds every kind of fact, with real photos and an issued report, in a data folder of its own. */
export async function carWithEveryKind(
  workshop: Workshop = createWorkshop({ keptIn: 'folder' }),
): Promise<FiledCar> {
  const photos: string[] = []
  for (const color of ['#933', '#777', '#345']) photos.push(await receivePhoto(workshop, color))
  const folder = reportsFolder(workshop.dataDir ?? '')
  const report = await storeReport(folder, 'pdf', Buffer.from('%PDF-1.7 a report'))
  const page = await storeReport(folder, 'html', Buffer.from('<!doctype html>a report'))
  const carId = recordEveryKind(workshop, photos, report, page)
  return { workshop, carId, photos: [...new Set(attached(workshop, carId))] }
}

async function receivePhoto({ dataDir, db, now }: Workshop, color: string): Promise<string> {
  const opened = await openPhotoStore(photosFolder(dataDir ?? ''), { inspect: inspectPhoto })
  if (!opened.ok) throw new Error(opened.problem.message)
  const stored = await opened.value.add(await createTestPhoto({ width: 60, height: 40, color }))
  if (!stored.ok) throw new Error(stored.problem.message)
  return recordPhoto(db, stored.value, now).sha256
}

function attached(workshop: Workshop, carId: CarId): readonly string[] {
  return [...workshop.car(carId).attachments.values()].map(({ sha256 }) => sha256)
}
