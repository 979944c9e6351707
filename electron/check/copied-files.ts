import { createReadStream } from 'node:fs'
import { access, readdir } from 'node:fs/promises'
import { join } from 'node:path'
import type { CopiedFiles } from '../../db/mend.ts'

/**
 * Files of the copies that lie in a folder: the one that they are made into, `panelwright-copies` in it, or the folder of one
 * workshop. Each lies once, under its digest, as `files/<first two digits>/<digest>`.
 */
export function openCopiedFiles(folder: string): CopiedFiles {
  return {
    open: async function* (sha256) {
      for (const store of [
        folder,
        ...(await workshopsIn(folder)),
        ...(await workshopsIn(join(folder, COPIES))),
      ]) {
        const path = join(store, 'files', sha256.slice(0, 2), sha256)
        if (await isThere(path)) yield createReadStream(path)
      }
    },
  }
}

const COPIES = 'panelwright-copies'

async function workshopsIn(folder: string): Promise<readonly string[]> {
  if (!(await isThere(folder))) return []
  return (await readdir(folder))
    .filter((name) => name.startsWith('workshop-'))
    .map((name) => join(folder, name))
}

async function isThere(path: string): Promise<boolean> {
  try {
    await access(path)
    return true
  } catch {
    // Whatever keeps it from being read, there may be another copy.
    return false
  }
}
