import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import type { Readable } from 'node:stream'
import { photosFolder, reportsFolder } from '../../db/data-paths.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { reportPath } from '../../db/report-files.ts'
import { isMissing } from '../../db/system-error.ts'
import type { CarState, IssuedReport } from '../../domain/car.ts'
import { CAR_FILE_PATHS, type CarFilePhoto } from '../../domain/report/car-file-shapes.ts'
import { BagProblem } from './bag-problem.ts'
import { checkedStream } from './checked-stream.ts'

/** A file that the data folder keeps under its digest. */
export interface KeptFile {
  /** Below `data/` in the bag. */
  readonly path: string
  readonly place: string
  readonly sha256: string
  /** 'the photo ‘Sill from below’, 0a1b2c3d4e5f' */
  readonly what: string
}

/** Each photo once, however many attachments show it. */
export function photoFiles(photos: readonly CarFilePhoto[], dataDir: string): readonly KeptFile[] {
  const folder = photosFolder(dataDir)
  const bySha256 = new Map(photos.map((photo) => [photo.sha256, photo]))
  return [...bySha256.values()].map(({ sha256, file, caption }) => ({
    path: file,
    place: originalPath(folder, sha256),
    sha256,
    what: `the photo ${caption === '' ? '' : `‘${caption}’, `}${sha256.slice(0, 12)}`,
  }))
}

/** The files of a car's issued reports, each once. */
export function reportFiles({ reports }: CarState, dataDir: string): readonly KeptFile[] {
  const files = [...reports.values()].flatMap((report) => filesOfReport(report, reportsFolder(dataDir)))
  return [...new Map(files.map((file) => [file.path, file])).values()]
}

function filesOfReport({ sha256, page, title }: IssuedReport, folder: string): readonly KeptFile[] {
  const file = (kind: 'pdf' | 'html', digest: string): KeptFile => ({
    path: CAR_FILE_PATHS.report(digest, kind),
    place: reportPath(folder, kind, digest),
    sha256: digest,
    what: `the report ‘${title}’`,
  })
  return [file('pdf', sha256), ...(page === null ? [] : [file('html', page)])]
}

/** @throws BagProblem for a file that is missing, errors of the disk */
export async function checkIsThere({ place, what }: KeptFile): Promise<void> {
  try {
    await stat(place)
  } catch (error) {
    throw isMissing(error) ? missingFile(what) : error
  }
}

/** Its bytes, which must be those that were stored. */
export function openKept({ place, sha256, what }: KeptFile): Readable {
  return checkedStream(createReadStream(place), sha256, (error) => {
    if (isMissing(error)) return missingFile(what)
    return error instanceof Error ? error : missingFile(what, 'is no longer what was stored')
  })
}

/** What stops a car's file whose original cannot be had. @param what as in {@link KeptFile} */
export function missingFile(what: string, how = 'is missing from the data folder'): BagProblem {
  return new BagProblem({
    code: 'storage',
    message: `The original of ${what} ${how}.`,
    next: 'Check the data folder with npm run check, and bring the original back from a copy.',
  })
}
