import { readdirSync, readFileSync, statSync } from 'node:fs'
import { join } from 'node:path'
import type { Result } from '../../domain/refusal.ts'
import { makeCopy, type CopyJob, type CopyMade } from '../../electron/copies/make-copy.ts'
import type { CopySecrets } from '../../electron/copies/open-copy.ts'
import { AS_IT_IS } from '../../electron/copies/wrapping.ts'
import { firstMorning } from './workshop.ts'

/** Of who opens a copy that is not sealed. */
export const NO_SECRETS: CopySecrets = { passphrase: null, key: null }

/** What of a copy is not the usual. */
export type CopyAsked = Partial<CopyJob> & Pick<CopyJob, 'dataDir' | 'folder'>

export const tryCopy = (asked: CopyAsked): Promise<Result<CopyMade>> =>
  makeCopy({ wrapping: AS_IT_IS, now: firstMorning, isKnown: false, ...asked })

/** Makes a copy that must succeed. */
export async function copyOf(asked: CopyAsked): Promise<CopyMade> {
  return valueOf(await tryCopy(asked))
}

export function valueOf<T>(result: Result<T>): T {
  if (result.ok) return result.value
  throw new Error(`${result.refusal.message} ${result.refusal.next}`)
}

export const refusedWith = (result: Result<unknown>): string =>
  result.ok ? 'It was done.' : `${result.refusal.message} ${result.refusal.next}`

/** Every file below a folder, with its bytes, by its path from there. */
export function treeOf(folder: string): ReadonlyMap<string, Buffer> {
  const paths = (readdirSync(folder, { recursive: true }) as string[]).toSorted()
  return new Map(
    paths
      .filter((path) => statSync(join(folder, path)).isFile())
      .map((path) => [path, readFileSync(join(folder, path))]),
  )
}
