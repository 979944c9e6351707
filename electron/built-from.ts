import { existsSync, readFileSync } from 'node:fs'
import { type BuiltFrom, PROGRAM_VERSION } from '../domain/program-version.ts'

/** What the build that lies here was made from, as it says itself; run from source without one, only the version is known. */
export function readBuiltFrom(): BuiltFrom {
  const file = new URL('../dist/electron/built-from.json', import.meta.url)
  if (!existsSync(file)) return { version: PROGRAM_VERSION, commit: 'unknown', lock: 'unknown' }
  return JSON.parse(readFileSync(file, 'utf8')) as BuiltFrom
}
