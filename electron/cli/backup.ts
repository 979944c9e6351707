import { mkdir } from 'node:fs/promises'
import { resolve } from 'node:path'
import { readCopiesSet, recordCopy } from '../../db/copy-records.ts'
import { isSqliteError } from '../../db/database-problem.ts'
import { databasePath } from '../../db/data-paths.ts'
import { openWriter } from '../../db/handle.ts'
import { openDatabase } from '../../db/open-database.ts'
import { bytesWords, plural } from '../../domain/text/words.ts'
import { refusalOf } from '../bag/bag-problem.ts'
import { copyFolder } from '../copies/copy-paths.ts'
import { recordOf } from '../copies/copy-record.ts'
import { wrappingHere } from '../copies/kept-key.ts'
import { type CopyMade, makeCopy } from '../copies/make-copy.ts'
import { dataFolder, needed, readFlags, runCommand, stopSignal } from './command-line.ts'

const usage = `npm run backup -- [--data DIR] --out DIR
  --data DIR  the data folder; also while Panelwright is running on it
  --out DIR   where copies go, on another disk (made when it is not there); a later copy there adds only what is new
Copies are sealed where that is set in the window, under Copies.`

const FILES_BETWEEN_WORDS = 500

await runCommand(usage, backUp)

/** Makes a verified copy of a workshop. */
async function backUp(argv: readonly string[]): Promise<number> {
  const flags = readFlags(argv, ['data', 'out'])
  const folder = resolve(needed(flags.out, '--out'))
  const dataDir = dataFolder(flags.data)
  try {
    const wrapping = await wrappingHere(dataDir, isSealed(dataDir))
    await mkdir(folder, { recursive: true })
    const now = Date.now()
    const made = await makeCopy(
      { dataDir, folder, wrapping, now, isKnown: false },
      {
        signal: stopSignal(),
        onProgress: ({ words, done, of }) => {
          if (done % FILES_BETWEEN_WORDS === 0) console.error(of === 0 ? words : `${words} ${done} of ${of}.`)
        },
      },
    )
    if (!made.ok) return fail(made.refusal)
    tell(made.value)
    remember(dataDir, folder, made.value, now)
    return made.value.head.isWhole ? 0 : 1
  } catch (error) {
    return fail(refusalOf(error))
  }
}

function isSealed(dataDir: string): boolean {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    return readCopiesSet(db)?.isSealed === true
  } finally {
    db.close()
  }
}

function tell({ stamp, store, head, files, warnings, dropped }: CopyMade): void {
  console.log(
    `Copied and verified: ${plural('line', head.number)} of the journal, ${bytesWords(head.bytes)} in all.`,
  )
  console.log(
    `${plural('file', files.written)} written (${bytesWords(files.writtenBytes)}), ${plural('earlier file', files.readAgain)} read again; it lies in ${copyFolder(store, stamp)}.`,
  )
  if (dropped.length > 0) console.log(`${plural('older copy', dropped.length, 'older copies')} removed.`)
  for (const words of warnings) console.error(words)
}

/** One row beside the host, which reads it when it is asked. A folder that may only be read is copied all the same. */
function remember(dataDir: string, folder: string, made: CopyMade, now: number): void {
  try {
    const writer = openWriter(databasePath(dataDir))
    try {
      recordCopy({ reader: writer, writer }, recordOf({ ok: true, value: made }, folder, now))
    } finally {
      writer.sqlite.close()
    }
  } catch (error) {
    if (!isSqliteError(error)) throw error
    console.error('The workshop does not know of this copy, as its folder cannot be written to.')
  }
}

function fail({ message, next }: { readonly message: string; readonly next: string }): number {
  console.error(`${message} ${next}`)
  return 1
}
