import { createHash, randomBytes } from 'node:crypto'
import { existsSync, readFileSync } from 'node:fs'
import { DatabaseProblem } from './database-problem.ts'
import { writePrivateFile } from './private-file.ts'

const KEY_BYTES = 32

/**
 * scrypt's N, with r = 8 and p = 1: 16 MB and some tens of milliseconds. Four digits would not stand against trying all
 * of them at any cost; what protects them is the key, which is in no copy.
 */
export const CODE_COST = 2 ** 14
/** The least that scrypt knows, where nothing is ever written down. */
export const LEAST_CODE_COST = 2

/**
 * The key of this computer that codes are hashed with; made when there is none. Codes are short: who gets hold of a
 * copy of the database but not of this key cannot find them by trying.
 *
 * @throws DatabaseProblem when the file is there but holds no key
 */
export function loadCodeKey(path: string): Uint8Array {
  if (!existsSync(path)) writePrivateFile(path, createCodeKey())
  const key = readFileSync(path)
  if (key.length !== KEY_BYTES)
    throw new DatabaseProblem(
      `${path} is damaged. Move it away and start again: a new key is made, and everybody's code is set anew.`,
    )
  return key
}

/** A key that is kept nowhere, for a database that is not either. */
export function createCodeKey(): Uint8Array {
  return randomBytes(KEY_BYTES)
}

/** Tells one key from another without telling the key. */
export function codeKeyId(key: Uint8Array): string {
  return createHash('sha256').update('key id').update(key).digest('hex').slice(0, 16)
}
