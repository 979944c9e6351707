import { createHash, randomBytes } from 'node:crypto'
import { existsSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'
import { DatabaseProblem } from './database-problem.ts'

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
  if (!existsSync(path)) storeKey(path, randomBytes(KEY_BYTES))
  const key = readFileSync(path)
  if (key.length !== KEY_BYTES)
    throw new DatabaseProblem(
      `${path} is damaged. Move it away and start again: a new key is made, and everybody's code is set anew.`,
    )
  return key
}

export function createCodeKey(): Uint8Array {
  return randomBytes(KEY_BYTES)
}

/** Tells one key from another without telling the key. */
export function codeKeyId(key: Uint8Array): string {
  return createHash('sha256').update('key id').update(key).digest('hex').slice(0, 16)
}

/** On the disk before it is used, and readable for this account only. */
function storeKey(path: string, key: Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
  const temporary = `${path}.part`
  writeFileSync(temporary, key, { mode: 0o600, flush: true })
  renameSync(temporary, path)
}
