import { createWriteStream } from 'node:fs'
import { mkdir, rm, statfs } from 'node:fs/promises'
import { dirname } from 'node:path'
import { pipeline } from 'node:stream/promises'
import { checkDatabase } from '../../db/check.ts'
import type { CheckFinding } from '../../db/check-finding.ts'
import { checkJournal } from '../../db/check-journal.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { DatabaseProblem, isSqliteError, openingProblem } from '../../db/database-problem.ts'
import type { Database } from '../../db/database.ts'
import { lastNumber } from '../../db/journal.ts'
import { syncFolders } from '../../db/move-for-good.ts'
import { openDatabase } from '../../db/open-database.ts'
import { originalsFolder } from '../../db/photos/photo-files.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { readWorkshop } from '../../db/reads.ts'
import { rebuildDerived } from '../../db/rebuild-derived.ts'
import { writeWhole } from '../../db/whole-writer.ts'
import { FACT_VERSION } from '../../domain/facts.ts'
import { ok, type Refusal, type Result } from '../../domain/refusal.ts'
import { bytesWords } from '../../domain/text/words.ts'
import { WHOLE_FORMAT, WHOLE_LABELS, WHOLE_PARTS, WHOLE_VERSION } from '../../domain/whole/whole-shapes.ts'
import { BagProblem, bagProblem, refusalOf, STOPPED } from '../bag/bag-problem.ts'
import type { BagInfo, BagLimits, OpenBag } from '../bag/bag-shapes.ts'
import { readBag } from '../bag/read-bag.ts'
import { besideFolder, putInPlace, requireEmpty } from './new-folder.ts'
import { readRecords } from './read-records.ts'
import { wholeFiles } from './whole-files.ts'

export interface TakenIn {
  readonly name: string
  /** Lines of the journal. */
  readonly facts: number
  /** Photos and issued reports. */
  readonly files: number
}

export interface TakeInOptions {
  /** Told in words what is done now. */
  readonly onStep?: (words: string) => void
  /** When aborted, the taking in ends and nothing of it is left. */
  readonly signal?: AbortSignal
}

/**
 * Makes a data folder from a bag that holds a whole workshop, a folder or a `.zip`. Journal lines are written as they stood, all that is
 * derived is made anew, and everything is checked before the folder gets its name: it is whole, or it is not there.
 *
 * @param dataDir a folder that is empty or not there yet
 */
export async function takeIn(
  from: string,
  dataDir: string,
  { onStep = () => {}, signal = never }: TakeInOptions = {},
): Promise<Result<TakenIn>> {
  const temporary = besideFolder(dataDir)
  try {
    await requireEmpty(dataDir)
    onStep('Verifying every file of the bag.')
    const bag = await stoppable(openWhole(from), signal)
    try {
      await mkdir(temporary, { recursive: true })
      await requireRoom(temporary, bag)
      const taken = await fill(bag, temporary, onStep, signal)
      await putInPlace(temporary, dataDir)
      return ok(taken)
    } finally {
      await bag.close()
    }
  } catch (error) {
    // What cannot be cleared away, on a disk that has just gone, must not hide why.
    await rm(temporary, { recursive: true, force: true }).catch(() => undefined)
    return { ok: false, refusal: toRefusal(error, dataDir) }
  }
}

const never = new AbortController().signal

/** Far above any workshop; what really fits is asked of the disk. */
const LIMITS: BagLimits = { mostFiles: 5_000_000, mostBytes: 8 * 1024 ** 4 }

async function openWhole(from: string): Promise<OpenBag> {
  const bag = await readBag(from, LIMITS)
  if (!bag.ok) throw new BagProblem(bag.refusal)
  try {
    requireKnown(bag.value.info)
    return bag.value
  } catch (error) {
    await bag.value.close()
    throw error
  }
}

function requireKnown(info: BagInfo): void {
  const said = new Map(info)
  if (said.get(WHOLE_LABELS.format) !== WHOLE_FORMAT)
    throw bagProblem(
      'bad-input',
      'This bag does not hold a whole workshop.',
      'Choose one that was written by Take out, The whole workshop. The file of a car is brought in on the Cars screen.',
    )
  const isNewer = (label: string, known: number) => !(Number(said.get(label)) <= known)
  if (isNewer(WHOLE_LABELS.version, WHOLE_VERSION) || isNewer(WHOLE_LABELS.factVersion, FACT_VERSION))
    throw bagProblem(
      'bad-input',
      'This workshop was taken out of a newer Panelwright than this one.',
      'Install the newer program and take the workshop in with that.',
    )
}

async function requireRoom(folder: string, { files }: OpenBag): Promise<void> {
  const needed = [...files.values()].reduce((sum, { bytes }) => sum + bytes, 0)
  const { bavail, bsize } = await statfs(folder)
  if (needed <= bavail * bsize) return
  throw bagProblem(
    'storage',
    `The workshop needs ${bytesWords(needed)} on this disk, which has ${bytesWords(bavail * bsize)} left.`,
    'Make room, or name a folder on another disk, and start again.',
  )
}

async function fill(
  bag: OpenBag,
  folder: string,
  onStep: (words: string) => void,
  signal: AbortSignal,
): Promise<TakenIn> {
  const db = openDatabase(folder)
  try {
    onStep('Taking in the records.')
    for (const part of WHOLE_PARTS)
      for await (const records of readRecords(bag, part)) {
        signal.throwIfAborted()
        writeWhole(db.writer, part, records)
      }
    requireClean(checkJournal(db.reader))
    rebuildDerived(db)
    const files = await copyFiles(bag, db, folder, onStep, signal)
    onStep('Checking the workshop.')
    requireClean(await checkDatabase(db, openPhotoReader(photosFolder(folder))))
    signal.throwIfAborted()
    return { name: readWorkshop(db).name, facts: lastNumber(db), files }
  } finally {
    db.close()
  }
}

function requireClean(findings: readonly CheckFinding[]): void {
  const fault = findings.find(({ severity }) => severity === 'fault')
  if (fault === undefined) return
  throw bagProblem(
    'bad-input',
    `The workshop in this bag is not sound: ${fault.what}`,
    'Run the check on the folder that it was taken out of; nothing was taken in.',
  )
}

async function copyFiles(
  bag: OpenBag,
  { reader }: Database,
  folder: string,
  onStep: (words: string) => void,
  signal: AbortSignal,
): Promise<number> {
  const files = wholeFiles(reader, folder)
  const folders = new Set<string>()
  await mkdir(originalsFolder(photosFolder(folder)), { recursive: true })
  for (const [done, { path, place }] of files.entries()) {
    if (done % 100 === 0) onStep(`Taking in photos and reports: ${done} of ${files.length}.`)
    if (!bag.files.has(path)) throw lost(path)
    await mkdir(dirname(place), { recursive: true })
    folders.add(dirname(place))
    await pipeline(await bag.read(path), createWriteStream(place, { flags: 'wx', flush: true }), { signal })
  }
  for (const each of folders) await syncFolders(each, folder)
  return files.length
}

const lost = (path: string): BagProblem =>
  bagProblem(
    'photo',
    `${path} is missing from the bag, and the workshop’s records need it.`,
    'Take the workshop out once more and try with that; nothing was taken in.',
  )

/** What goes on meanwhile changes nothing, and its outcome is dropped. */
function stoppable(work: Promise<OpenBag>, signal: AbortSignal): Promise<OpenBag> {
  return new Promise((resolve, reject) => {
    const stop = () => {
      work.then(
        (bag) => bag.close(),
        () => undefined,
      )
      reject(new BagProblem(STOPPED))
    }
    if (signal.aborted) return stop()
    signal.addEventListener('abort', stop, { once: true })
    work.then(resolve, reject).finally(() => signal.removeEventListener('abort', stop))
  })
}

function toRefusal(error: unknown, dataDir: string): Refusal {
  if (isSqliteError(error) && error.code.startsWith('SQLITE_CONSTRAINT'))
    return bagProblem(
      'bad-input',
      'The records in this bag contradict each other.',
      'Run the check on the folder that it was taken out of; nothing was taken in.',
    ).refusal
  if (error instanceof DatabaseProblem || isSqliteError(error))
    return bagProblem('storage', openingProblem(error, dataDir).message, 'Nothing was taken in.').refusal
  return refusalOf(error)
}
