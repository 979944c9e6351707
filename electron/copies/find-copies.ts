import { readFile } from 'node:fs/promises'
import { basename, dirname, join } from 'node:path'
import { isMissing } from '../../db/system-error.ts'
import {
  COPY_FORMAT,
  COPY_VERSION,
  copySchema,
  type CopyHead,
  type ListedCopy,
} from '../../domain/copies/copy-shapes.ts'
import { refuse, ok, type Result } from '../../domain/refusal.ts'
import { COPIES_FOLDER, COPY_FILES, copyFolder, copiesIn, isStamp, type CopyStore } from './copy-paths.ts'
import type { CopyThere } from '../api/copies-desk.ts'
import { isKeyOf } from './sealing.ts'
import { namesIn } from '../whole/new-folder.ts'

/** The copies of one workshop, and where they lie. */
export interface FoundCopies {
  readonly store: CopyStore
  /** The newest first. */
  readonly copies: readonly ListedCopy[]
}

/**
 * The copies that lie in a folder, workshop by workshop: the folder that they were made into, `panelwright-copies` in it, or the
 * folder of one workshop.
 *
 * @throws errors of the disk other than a folder that is not there
 */
export async function findCopies(folder: string): Promise<readonly FoundCopies[]> {
  const top = basename(folder) === COPIES_FOLDER ? folder : join(folder, COPIES_FOLDER)
  const isOne = basename(dirname(folder)) === COPIES_FOLDER
  const stores = isOne
    ? [{ folder }]
    : (await namesIn(top))
        .filter((name) => /^workshop-[0-9a-f]{12}$/.test(name))
        .map((name) => ({ folder: join(top, name) }))
  const found = await Promise.all(stores.map(async (store) => ({ store, copies: await listCopies(store) })))
  return found.filter(({ copies }) => copies.length > 0)
}

/** The copies of a workshop, the newest first. What cannot be read as one is left out. */
export async function listCopies(store: CopyStore): Promise<readonly ListedCopy[]> {
  return (await readHeads(store)).map(({ stamp, head }) => toListed(stamp, head))
}

/** The same, with which of them the key that is kept on this computer does not open. */
export async function listCopiesHere(
  store: CopyStore,
  key: Uint8Array | null,
): Promise<readonly CopyThere[]> {
  return (await readHeads(store)).map(({ stamp, head }) => {
    const { sealing } = head
    const needsPassphrase = sealing !== null && (key === null || !isKeyOf(key, sealing))
    return { ...toListed(stamp, head), needsPassphrase }
  })
}

interface StampedHead {
  readonly stamp: string
  readonly head: CopyHead
}

async function readHeads(store: CopyStore): Promise<readonly StampedHead[]> {
  const stamps = (await namesIn(copiesIn(store))).filter(isStamp).toSorted().toReversed()
  const heads: StampedHead[] = []
  for (const stamp of stamps) {
    const head = await readHead(store, stamp)
    if (head.ok) heads.push({ stamp, head: head.value })
  }
  return heads
}

/** What a copy says of itself. */
export async function readHead(store: CopyStore, stamp: string): Promise<Result<CopyHead>> {
  const path = join(copyFolder(store, stamp), COPY_FILES.head)
  let said: unknown
  try {
    said = JSON.parse(await readFile(path, 'utf8'))
  } catch (error) {
    if (isMissing(error)) return refuse('unknown', `There is no copy ${stamp} in ${store.folder}.`, CHOOSE)
    if (!(error instanceof SyntaxError)) throw error
  }
  const parsed = copySchema.safeParse(said)
  if (parsed.success) return ok(parsed.data)
  const { format, version } = (said ?? {}) as { readonly format?: unknown; readonly version?: unknown }
  return format === COPY_FORMAT && typeof version === 'number' && version > COPY_VERSION
    ? refuse(
        'bad-input',
        'This copy was made by a newer Panelwright.',
        'Install the newer program and use that.',
      )
    : refuse('bad-input', `What the copy ${stamp} says of itself cannot be read: it is damaged.`, CHOOSE)
}

const CHOOSE = 'Choose another copy.'

function toListed(stamp: string, { made, number, bytes, isWhole, sealing, content }: CopyHead): ListedCopy {
  return {
    stamp,
    made: Date.parse(made),
    number,
    bytes,
    isWhole,
    isSealed: sealing !== null,
    content: content && {
      workshop: content.workshop,
      cars: content.cars,
      photos: content.photos,
      otherFiles: content.otherFiles,
      lost: content.lost,
    },
  }
}
