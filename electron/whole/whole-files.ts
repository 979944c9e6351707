import { cameJournalPath } from '../../db/brought-in-files.ts'
import { readCameRecords } from '../../db/check-brought-in.ts'
import { readFileRecords } from '../../db/check-files.ts'
import { broughtInFolder, photosFolder, reportsFolder } from '../../db/data-paths.ts'
import type { Handle } from '../../db/handle.ts'
import { originalPath } from '../../db/photos/photo-files.ts'
import { reportPath, type ReportFileKind } from '../../db/report-files.ts'
import { WHOLE_PATHS } from '../../domain/whole/whole-shapes.ts'

/** A file that is kept beside the database under the SHA-256 of its bytes. */
export interface WholeFile {
  /** In the bag, below `data/`. */
  readonly path: string
  /** In the data folder. */
  readonly place: string
  readonly sha256: string
  /** Names it to people. */
  readonly what: string
}

/** Every file that the records of a data folder name, once, in order of paths. */
export function wholeFiles(reader: Handle, dataDir: string): readonly WholeFile[] {
  const { photos, carsByPhoto, reports } = readFileRecords(reader)
  const originals = photos.map(({ sha256, type }) => ({
    path: WHOLE_PATHS.photo({ sha256, type }),
    place: originalPath(photosFolder(dataDir), sha256),
    sha256,
    what: `The photo ${sha256.slice(0, 12)}${usedBy(carsByPhoto.get(sha256))}`,
  }))
  const issued = reports.flatMap(({ sha256, page, week }) => [
    issuedFile(dataDir, 'pdf', sha256, week),
    ...(page === null ? [] : [issuedFile(dataDir, 'html', page, week)]),
  ])
  const came = readCameRecords(reader).map(({ journal, from }) => ({
    path: WHOLE_PATHS.broughtIn(journal),
    place: cameJournalPath(broughtInFolder(dataDir), journal),
    sha256: journal,
    what: `The journal that came from ${from}`,
  }))
  // Two reports may be the same file.
  const once = new Map([...originals, ...issued, ...came].map((file) => [file.path, file]))
  return [...once.values()].toSorted((a, b) => (a.path < b.path ? -1 : 1))
}

const issuedFile = (dataDir: string, kind: ReportFileKind, sha256: string, week: string): WholeFile => ({
  path: WHOLE_PATHS.report(sha256, kind),
  place: reportPath(reportsFolder(dataDir), kind, sha256),
  sha256,
  what: `An issued report of ${week}`,
})

const usedBy = (cars: ReadonlySet<string> | undefined): string =>
  cars ? ` (on ${[...cars].join(', ')})` : ''
