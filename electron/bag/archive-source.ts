import { getFileNameLowLevel, openPromise, type Entry, type ZipFile } from 'yauzl'
import { BagProblem } from './bag-problem.ts'
import { BagFiles, checkCount, checkPath, refuseBag, type BagSource } from './bag-source.ts'
import type { BagLimits } from './bag-shapes.ts'
import { DECLARATION } from './bag-tags.ts'

/**
 * A bag in a `.zip`, read from the directory at its end. Sizes are those that the archive claims; its reading breaks off
 * at the first byte beyond them, so that their sum bounds what can be unpacked.
 *
 * @throws BagProblem, errors of the disk
 */
export async function archiveSource(path: string, limits: BagLimits): Promise<BagSource> {
  const zip = await openArchive(path)
  try {
    const entries = await entriesOf(zip, limits)
    const base = baseOf(entries)
    const files = new BagFiles(limits)
    const byPath = new Map<string, Entry>()
    for (const [name, entry] of entries) {
      const inBag = name.slice(base.length)
      files.add(inBag, entry.uncompressedSize)
      byPath.set(inBag, entry)
    }
    return {
      sizes: files.finish(),
      open: async (inBag) => {
        const entry = byPath.get(inBag)
        if (!entry) throw new Error(`The archive holds no ${inBag}.`)
        return zip.openReadStreamPromise(entry)
      },
      close: async () => zip.close(),
    }
  } catch (error) {
    zip.close()
    throw error
  }
}

const NO_ARCHIVE = 'This file is no .zip archive, or a part of it is missing.'

async function openArchive(path: string): Promise<ZipFile> {
  try {
    // Names are judged here, with words that name them.
    return await openPromise(path, { decodeStrings: false, autoClose: false, validateEntrySizes: true })
  } catch (error) {
    return refuseIfBroken(error)
  }
}

/** The library's own errors are about the archive; those of the system carry a code. */
function refuseIfBroken(error: unknown): never {
  if (error instanceof BagProblem || (error instanceof Error && 'code' in error)) throw error
  return refuseBag(NO_ARCHIVE)
}

async function entriesOf(zip: ZipFile, limits: BagLimits): Promise<ReadonlyMap<string, Entry>> {
  checkCount(zip.entryCount, { ...limits, mostFiles: limits.mostFiles * 2 })
  const entries = new Map<string, Entry>()
  try {
    for await (const entry of zip.eachEntry()) {
      const name = nameOf(entry)
      if (name.endsWith('/')) checkPath(name.slice(0, -1))
      else addEntry(entries, name, entry)
      checkCount(entries.size, limits)
    }
  } catch (error) {
    refuseIfBroken(error)
  }
  return entries
}

function addEntry(entries: Map<string, Entry>, name: string, entry: Entry): void {
  checkPath(name)
  if (entries.has(name)) refuseBag(`The archive holds ${name} twice.`)
  if (!isPlainFile(entry)) refuseBag(`The archive holds a link or something else that is no file: ${name}.`)
  if (!entry.canDecodeFileData())
    refuseBag(
      `${name} is locked with a password or packed in a way that cannot be read here.`,
      'Ask the sender for a plain .zip.',
    )
  entries.set(name, entry)
}

/** Back-slashes stay as they are, and are then refused with the name. */
function nameOf({ generalPurposeBitFlag, fileNameRaw, extraFields }: Entry): string {
  return getFileNameLowLevel(generalPurposeBitFlag, fileNameRaw, extraFields, true)
}

const TYPE_BITS = 0o170000
const REGULAR = 0o100000

/** The upper half holds the file's mode as Unix has it; programs of other systems leave it 0. */
function isPlainFile({ externalFileAttributes }: Entry): boolean {
  const type = (externalFileAttributes >>> 16) & TYPE_BITS
  return type === 0 || type === REGULAR
}

/** The one folder that holds the bag; '' for an archive that was packed without it. */
function baseOf(entries: ReadonlyMap<string, Entry>): string {
  if (entries.has(DECLARATION)) return ''
  const [first] = entries.keys()
  const base = first === undefined ? '' : first.slice(0, first.indexOf('/') + 1)
  const stray = [...entries.keys()].find((name) => !name.startsWith(base))
  if (stray !== undefined) refuseBag(`The archive holds more than one folder: ${stray} lies beside ${base}.`)
  return base
}
