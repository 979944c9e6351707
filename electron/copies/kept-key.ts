import { readFile } from 'node:fs/promises'
import { copyKeyPath } from '../../db/data-paths.ts'
import { writePrivateFile } from '../../db/private-file.ts'
import { isMissing, isSystemError } from '../../db/system-error.ts'
import { copyKeySchema } from '../../domain/copies/copy-shapes.ts'
import { bagProblem } from '../bag/bag-problem.ts'
import { type CopyKey, isKeyOf, sealedWith } from './sealing.ts'
import { AS_IT_IS, type Wrapping } from './wrapping.ts'

/**
 * The key that copies of this workshop are sealed with; null when none was set on this computer, or it is damaged.
 *
 * @throws errors of the disk other than a file that is not there
 */
export async function readKeptKey(dataDir: string): Promise<CopyKey | null> {
  try {
    const said = copyKeySchema.parse(JSON.parse(await readFile(copyKeyPath(dataDir), 'utf8')))
    const key = new Uint8Array(Buffer.from(said.key, 'hex'))
    return isKeyOf(key, said.sealing) ? { key, sealing: said.sealing } : null
  } catch (error) {
    if (isSystemError(error) && !isMissing(error)) throw error
    return null
  }
}

/** @throws the operating system's error */
export function keepKey(dataDir: string, { key, sealing }: CopyKey): void {
  writePrivateFile(copyKeyPath(dataDir), JSON.stringify({ key: Buffer.from(key).toString('hex'), sealing }))
}

/** @throws BagProblem when copies are to be sealed and there is no key for it */
export async function wrappingHere(dataDir: string, isSealed: boolean): Promise<Wrapping> {
  if (!isSealed) return AS_IT_IS
  const key = await readKeptKey(dataDir)
  if (key !== null) return sealedWith(key)
  throw bagProblem(
    'storage',
    'The key that copies are sealed with is missing on this computer.',
    'Set the passphrase anew on the Workshop screen, under Copies.',
  )
}
