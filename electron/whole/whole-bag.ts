import { createReadStream } from 'node:fs'
import { stat } from 'node:fs/promises'
import { Readable } from 'node:stream'
import { DatabaseProblem, isSqliteError, openingProblem } from '../../db/database-problem.ts'
import { databasePath } from '../../db/data-paths.ts'
import type { Handle } from '../../db/handle.ts'
import { openDatabase } from '../../db/open-database.ts'
import { readWorkshop } from '../../db/reads.ts'
import { isMissing } from '../../db/system-error.ts'
import { wholeLines } from '../../db/whole-records.ts'
import type { Moment } from '../../domain/car.ts'
import { FACT_VERSION } from '../../domain/facts.ts'
import { localDateOf } from '../../domain/time/zone.ts'
import { wholeReadme } from '../../domain/whole/whole-readme.ts'
import { wholeSchemas } from '../../domain/whole/whole-schemas.ts'
import {
  WHOLE_FORMAT,
  WHOLE_LABELS,
  WHOLE_PARTS,
  WHOLE_PATHS,
  WHOLE_VERSION,
} from '../../domain/whole/whole-shapes.ts'
import { type BagProblem, bagProblem } from '../bag/bag-problem.ts'
import type { BagEntry, BagToWrite } from '../bag/bag-shapes.ts'
import { checkedStream } from '../bag/checked-stream.ts'
import { wholeFiles, type WholeFile } from './whole-files.ts'

/** The workshop of a data folder as of one moment, on a connection of its own: the host goes on working beside it. */
export interface WholeWorkshop {
  readonly name: string
  /** For the folder or archive: 'panelwright-brookside-metalwork-2026-11-28', with the local date. */
  readonly bagName: string
  readonly bag: BagToWrite
  /** Files of the payload, to tell how far the writing is. */
  readonly files: number
  readonly close: () => void
}

/**
 * @param now epoch milliseconds
 * @throws DatabaseProblem when there is no workshop in the folder, or it cannot be read
 */
export function openWholeWorkshop(dataDir: string, now: Moment): WholeWorkshop {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    // Everything that is read later is read as of here; nobody has to wait for it.
    db.reader.sqlite.exec('BEGIN')
    const workshop = readWorkshop(db)
    if (!workshop.setUp) throw new DatabaseProblem(`There is no workshop in ${dataDir} yet.`)
    const entries = [...textEntries(db.reader, dataDir), ...wholeFiles(db.reader, dataDir).map(fileEntry)]
    return {
      name: workshop.name,
      bagName: bagName(workshop.name, localDateOf(now, workshop.zone)),
      bag: { info: infoOf(workshop.name), entries },
      files: entries.length,
      close: db.close,
    }
  } catch (error) {
    db.close()
    throw error
  }
}

function bagName(workshop: string, day: string): string {
  const plain = workshop
    .normalize('NFKD')
    .toLowerCase()
    .replaceAll(/[^a-z0-9]+/g, '-')
  return `panelwright-${plain.replaceAll(/^-|-$/g, '').slice(0, 60) || 'workshop'}-${day}`
}

const infoOf = (name: string): BagToWrite['info'] => [
  ['Source-Organization', name],
  ['External-Description', 'The whole workshop, with personal data; see data/README.txt'],
  [WHOLE_LABELS.format, WHOLE_FORMAT],
  [WHOLE_LABELS.version, String(WHOLE_VERSION)],
  [WHOLE_LABELS.factVersion, String(FACT_VERSION)],
]

function textEntries(reader: Handle, dataDir: string): readonly BagEntry[] {
  return [
    textEntry(WHOLE_PATHS.readme, () => [wholeReadme()]),
    ...[...wholeSchemas()].map(([name, schema]) =>
      textEntry(WHOLE_PATHS.schema(name), () => [`${JSON.stringify(schema, null, 2)}\n`]),
    ),
    ...WHOLE_PARTS.map((part) =>
      textEntry(WHOLE_PATHS.part(part), () => toldAsProblems(wholeLines(reader, part), dataDir)),
    ),
  ]
}

const textEntry = (path: string, pieces: () => Iterable<string>): BagEntry => ({
  path,
  open: () => Readable.from(toBytes(pieces())),
})

function* toBytes(pieces: Iterable<string>): Generator<Uint8Array> {
  for (const piece of pieces) if (piece !== '') yield Buffer.from(piece, 'utf8')
}

/** What is wrong with the workshop, in the words that the writing of a bag hands on. */
function* toldAsProblems(lines: Iterable<string>, dataDir: string): Generator<string> {
  try {
    yield* lines
  } catch (error) {
    if (!(error instanceof DatabaseProblem) && !isSqliteError(error)) throw error
    const { message } = openingProblem(error, databasePath(dataDir))
    throw bagProblem('storage', message, CHECK_FIRST)
  }
}

function fileEntry(file: WholeFile): BagEntry {
  return { path: file.path, open: () => openKept(file) }
}

/** @throws BagProblem when it is gone; the stream ends with one when it is no longer what was kept */
async function openKept({ place, sha256, what }: WholeFile): Promise<Readable> {
  try {
    await stat(place)
  } catch (error) {
    if (isMissing(error)) throw lost(`${what} is gone.`)
    throw error
  }
  return checkedStream(createReadStream(place), sha256, (error) =>
    error instanceof Error ? error : lost(`${what} is not what was kept: its bytes were changed.`),
  )
}

const CHECK_FIRST = 'Nothing half-written was kept. Run the check on this folder, then take out again.'

const lost = (message: string): BagProblem =>
  bagProblem(
    'photo',
    message,
    'Run the check on this folder; it names all that is lost. Put it back from the newest copy, then take out again.',
  )
