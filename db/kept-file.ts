import { join } from 'node:path'
import { cameJournalPath } from './brought-in-files.ts'
import { broughtInFolder, photosFolder, reportsFolder } from './data-paths.ts'
import { incomingFolder, originalPath, originalsFolder } from './photos/photo-files.ts'
import { reportPath } from './report-files.ts'

/** A file that the journal names by its digest, so that it can be taken from anywhere and still be known for the right one. */
export interface KeptFile {
  readonly kind: 'photo' | 'report' | 'report page' | 'journal that came'
  /** Of its bytes, 64 lower-case hexadecimal digits. */
  readonly sha256: string
}

/** Where a kept file lies, and where in the same file system another one can be made ready or be set aside. */
export interface KeptPlace {
  readonly path: string
  /** Synced from the file up to here. */
  readonly top: string
  /** Where a file is written before it is moved into its place. */
  readonly making: string
  readonly setAside: string
}

/** Where a kept file lies in a data folder. */
export function keptPlace(dataDir: string, { kind, sha256 }: KeptFile): KeptPlace {
  switch (kind) {
    case 'photo': {
      const folder = photosFolder(dataDir)
      return {
        path: originalPath(folder, sha256),
        top: originalsFolder(folder),
        making: incomingFolder(folder),
        setAside: join(folder, SET_ASIDE),
      }
    }
    case 'report':
    case 'report page': {
      const folder = reportsFolder(dataDir)
      return placeIn(folder, reportPath(folder, kind === 'report' ? 'pdf' : 'html', sha256))
    }
    case 'journal that came': {
      const folder = broughtInFolder(dataDir)
      return placeIn(folder, cameJournalPath(folder, sha256))
    }
  }
}

function placeIn(folder: string, path: string): KeptPlace {
  return { path, top: folder, making: folder, setAside: join(folder, SET_ASIDE) }
}

/** Damaged files that a whole one has taken the place of. */
const SET_ASIDE = 'set-aside'
