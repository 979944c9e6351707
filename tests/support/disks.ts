import { spawnSync } from 'node:child_process'
import { chmodSync, closeSync, mkdtempSync, openSync, readdirSync, rmSync, writeSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'

/** A real disk of a few megabytes, in memory. */
export interface SmallDisk {
  readonly folder: string
  /** Takes all the room that is left. */
  readonly fill: () => void
  readonly free: () => void
  readonly remove: () => void
}

/** Null where this account may not mount one, or where there is no tmpfs: a test then says what it cannot test. */
export function mountSmallDisk(megabytes: number): SmallDisk | null {
  const folder = mkdtempSync(join(tmpdir(), 'small-disk-'))
  const mounted = spawnSync('mount', ['-t', 'tmpfs', '-o', `size=${megabytes}m`, 'tmpfs', folder])
  if (mounted.status !== 0) {
    rmSync(folder, { recursive: true })
    return null
  }
  const filler = join(folder, 'filler')
  return {
    folder,
    fill: () => fillUp(filler),
    free: () => rmSync(filler),
    remove: () => {
      spawnSync('umount', ['-l', folder])
      rmSync(folder, { recursive: true })
    },
  }
}

function fillUp(path: string): void {
  const file = openSync(path, 'a')
  const zeros = Buffer.alloc(4_096)
  try {
    for (;;) writeSync(file, zeros)
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && error.code === 'ENOSPC')) throw error
  } finally {
    closeSync(file)
  }
}

const NOBODY = 65_534

/**
 * Does something while nothing can be made or changed in a folder by name. Rights do not bind root, so that the process is
 * nobody for as long.
 */
export async function withoutRights<T>(folder: string, work: () => Promise<T>): Promise<T> {
  const isRoot = process.getuid?.() === 0
  const setRights = (mode: number) =>
    [folder, ...readdirSync(folder, { recursive: true, encoding: 'utf8', withFileTypes: true })]
      .filter((entry) => typeof entry === 'string' || entry.isDirectory())
      .forEach((entry) =>
        chmodSync(typeof entry === 'string' ? entry : join(entry.parentPath, entry.name), mode),
      )
  if (isRoot) process.seteuid?.(NOBODY)
  else setRights(0o500)
  try {
    return await work()
  } finally {
    if (isRoot) process.seteuid?.(0)
    else setRights(0o700)
  }
}
