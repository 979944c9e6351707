import { createReadStream } from 'node:fs'
import { access, readdir } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { pipeline } from 'node:stream'
import type { CopiedFiles } from '../../db/mend.ts'
import { COPIES_FOLDER, filePath } from '../copies/copy-paths.ts'
import { readKeptKey } from '../copies/kept-key.ts'
import { sealedWith } from '../copies/sealing.ts'
import { AS_IT_IS, type Wrapping } from '../copies/wrapping.ts'

/**
 * Files of the copies that lie in a folder: the one that they are made into, `panelwright-copies` in it, or the folder of one
 * workshop. Sealed ones are opened by the key that is kept on this computer.
 *
 * @param dataDir of the workshop that they are taken for
 */
export function openCopiedFiles(folder: string, dataDir: string): CopiedFiles {
  return {
    open: async function* (sha256) {
      const wrappings = await wrappingsOf(dataDir)
      for (const store of await storesIn(folder))
        for (const wrapping of wrappings) {
          const name = wrapping.nameOf(sha256)
          const path = filePath({ folder: store }, name)
          if (await isThere(path)) yield unwrapped(path, name, wrapping)
        }
    },
  }
}

async function wrappingsOf(dataDir: string): Promise<readonly Wrapping[]> {
  const key = await readKeptKey(dataDir)
  return key === null ? [AS_IT_IS] : [AS_IT_IS, sealedWith(key)]
}

/** What breaks off breaks the last stream, and with it the reading. */
function unwrapped(path: string, name: string, wrapping: Wrapping): AsyncIterable<Uint8Array> {
  const streams = [createReadStream(path), ...wrapping.unwrap(name)] as const
  if (streams.length > 1) pipeline(streams, () => {})
  return streams.at(-1) as AsyncIterable<Uint8Array>
}

async function storesIn(folder: string): Promise<readonly string[]> {
  const top = basename(folder) === COPIES_FOLDER ? folder : join(folder, COPIES_FOLDER)
  const workshops = (await isThere(top)) ? (await readdir(top)).map((name) => join(top, name)) : []
  return [folder, ...workshops]
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
