import { createHash } from 'node:crypto'
import { createReadStream, createWriteStream } from 'node:fs'
import { readFile } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { Writable } from 'node:stream'
import { pipeline } from 'node:stream/promises'
import { isMissing } from '../../db/system-error.ts'
import { copyContentSchema, type CopyContent, type CopyHead } from '../../domain/copies/copy-shapes.ts'
import { parseJson } from '../../domain/text/parse-json.ts'
import { BagProblem } from '../bag/bag-problem.ts'
import { hashThrough } from '../bag/hash-through.ts'
import { COPY_FILES, copyFolder, filePath, type CopyStore } from './copy-paths.ts'
import { bagProblem } from '../bag/bag-problem.ts'
import { readHead } from './find-copies.ts'
import { isKeyOf, keyOfPassphrase, sealedWith } from './sealing.ts'
import { AS_IT_IS, type Wrapping } from './wrapping.ts'

/** What opens a sealed copy: what a person knows, or the key that this computer keeps. */
export interface CopySecrets {
  readonly passphrase: string | null
  readonly key: Uint8Array | null
}

/** A copy that can be read. */
export interface OpenCopy {
  readonly store: CopyStore
  readonly stamp: string
  readonly head: CopyHead
  readonly content: CopyContent
  readonly wrapping: Wrapping
  /** Names of its files. */
  readonly names: ReadonlySet<string>
}

/** @throws BagProblem where it is damaged, sealed with another passphrase, or made by a newer program */
export async function openCopy(store: CopyStore, stamp: string, secrets: CopySecrets): Promise<OpenCopy> {
  const head = await readHead(store, stamp)
  if (!head.ok) throw new BagProblem(head.refusal)
  const wrapping = await wrappingOf(head.value, secrets)
  const folder = copyFolder(store, stamp)
  const content = head.value.content ?? (await readContent(join(folder, COPY_FILES.content), wrapping))
  const list = await readList(join(folder, COPY_FILES.list))
  if (createHash('sha256').update(list).digest('hex') !== content.list)
    throw damaged('The list of its files is not what was written.')
  const names = new Set(list.split('\n').filter((name) => name !== ''))
  return { store, stamp, head: head.value, content, wrapping, names }
}

async function wrappingOf({ sealing }: CopyHead, { passphrase, key }: CopySecrets): Promise<Wrapping> {
  if (sealing === null) return AS_IT_IS
  if (key !== null && isKeyOf(key, sealing)) return sealedWith({ key, sealing })
  if (passphrase === null)
    throw bagProblem('wrong-code', 'This copy is sealed.', 'Give the passphrase that it was sealed with.')
  const opened = await keyOfPassphrase(passphrase, sealing)
  if (opened !== null) return sealedWith(opened)
  throw bagProblem(
    'wrong-code',
    'This is not the passphrase that the copy was sealed with.',
    'Type it once more; small and capital letters differ. Without it nobody can open the copy.',
  )
}

async function readContent(path: string, wrapping: Wrapping): Promise<CopyContent> {
  const chunks: Uint8Array[] = []
  const collect = new Writable({
    write: (chunk: Uint8Array, _encoding, done) => {
      chunks.push(chunk)
      done()
    },
  })
  await pipeline([createReadStream(path), ...wrapping.unwrap(COPY_FILES.content), collect])
  const content = copyContentSchema.safeParse(parseJson(Buffer.concat(chunks).toString('utf8')))
  if (!content.success) throw damaged('What it says of its content cannot be read.')
  return content.data
}

async function readList(path: string): Promise<string> {
  try {
    return await readFile(path, 'utf8')
  } catch (error) {
    if (!isMissing(error)) throw error
    throw damaged('The list of its files is missing.')
  }
}

/** Writes the database of a copy to a path, as it was copied. @throws BagProblem when it is not what was copied */
export async function takeDatabase(
  { store, stamp, content, wrapping }: OpenCopy,
  to: string,
  signal: AbortSignal,
): Promise<void> {
  const from = join(copyFolder(store, stamp), COPY_FILES.database)
  await takeOut(from, to, { wrapping, sha256: content.database.sha256, what: 'Its database', signal })
}

/** The same for a file by its digest. */
export async function takeFile(
  { store, wrapping }: OpenCopy,
  { sha256, what }: { readonly sha256: string; readonly what: string },
  to: string,
  signal: AbortSignal,
): Promise<void> {
  await takeOut(filePath(store, wrapping.nameOf(sha256)), to, { wrapping, sha256, what, signal })
}

interface TakenFile {
  readonly wrapping: Wrapping
  readonly sha256: string
  readonly what: string
  readonly signal: AbortSignal
}

async function takeOut(
  from: string,
  to: string,
  { wrapping, sha256, what, signal }: TakenFile,
): Promise<void> {
  const compare = hashThrough((read) => {
    if (read.sha256 !== sha256) throw damaged(`${what} is not what was copied.`)
  })
  try {
    const out = createWriteStream(to, { flags: 'wx', flush: true })
    await pipeline([createReadStream(from), ...wrapping.unwrap(basename(from)), compare, out], { signal })
  } catch (error) {
    throw isMissing(error) ? damaged(`${what} is missing.`) : error
  }
}

/** What a copy is not, in a sentence, with what can be done. */
export const damaged = (what: string): BagProblem =>
  bagProblem(
    'storage',
    `This copy is damaged: ${what}`,
    'Use another copy, and have the disk checked that this one lies on.',
  )
