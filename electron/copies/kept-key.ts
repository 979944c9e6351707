import { mkdir, readFile, rename, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'
import { copyKeyPath } from '../../db/data-paths.ts'
import { isMissing } from '../../db/system-error.ts'
import { copyKeySchema } from '../../domain/copies/copy-shapes.ts'
import { copyProblem } from './copy-problem.ts'
import { type CopyKey, isKeyOf, sealedWith } from './sealing.ts'
import { AS_IT_IS, type Wrapping } from './wrapping.ts'

/** The key that copies of this workshop are sealed with; null when none was set on this computer. */
export async function readKeptKey(dataDir: string): Promise<CopyKey | null> {
  try {
    const said = copyKeySchema.parse(JSON.parse(await readFile(copyKeyPath(dataDir), 'utf8')))
    const key = new Uint8Array(Buffer.from(said.key, 'hex'))
    return isKeyOf(key, said.sealing) ? { key, sealing: said.sealing } : null
  } catch (error) {
    if (isMissing(error)) return null
    if (error instanceof Error && 'syscall' in error) throw error
    return null
  }
}

/** On the disk before it is used, and readable for this account only. */
export async function keepKey(dataDir: string, { key, sealing }: CopyKey): Promise<void> {
  const path = copyKeyPath(dataDir)
  await mkdir(dirname(path), { recursive: true, mode: 0o700 })
  const text = JSON.stringify({ key: Buffer.from(key).toString('hex'), sealing })
  await writeFile(`${path}.part`, text, { mode: 0o600, flush: true })
  await rename(`${path}.part`, path)
}

/** @throws BagProblem when copies are to be sealed and there is no key for it */
export async function wrappingHere(dataDir: string, isSealed: boolean): Promise<Wrapping> {
  if (!isSealed) return AS_IT_IS
  const key = await readKeptKey(dataDir)
  if (key !== null) return sealedWith(key)
  throw copyProblem(
    'storage',
    'The key that copies are sealed with is missing on this computer.',
    'Set the passphrase anew on the Workshop screen, under Copies.',
  )
}
