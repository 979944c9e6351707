import { mkdirSync, renameSync, writeFileSync } from 'node:fs'
import { dirname } from 'node:path'

/**
 * Writes a file that is on the disk before it is used, whole or not at all, and that this account alone can read; makes its folder.
 *
 * @throws the operating system's error
 */
export function writePrivateFile(path: string, content: string | Uint8Array): void {
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 })
  const temporary = `${path}.part`
  writeFileSync(temporary, content, { mode: 0o600, flush: true })
  renameSync(temporary, path)
}
