import { constants } from 'node:fs'
import { lstat, open, readdir } from 'node:fs/promises'
import { join, relative, sep } from 'node:path'
import { BagFiles, refuseBag, type BagSource } from './bag-source.ts'
import type { BagLimits } from './bag-shapes.ts'

/** A bag that lies in a folder. @throws BagProblem, errors of the disk */
export async function folderSource(folder: string, limits: BagLimits): Promise<BagSource> {
  const files = new BagFiles(limits)
  await takeIn(folder, folder, files)
  return {
    sizes: files.finish(),
    open: async (path) => {
      // A link that took the file's place after it was looked at is not followed.
      const file = await open(
        join(folder, ...path.split('/')),
        constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0),
      )
      return file.createReadStream()
    },
    close: async () => undefined,
  }
}

async function takeIn(folder: string, top: string, files: BagFiles): Promise<void> {
  for (const entry of await readdir(folder, { withFileTypes: true })) {
    const place = join(folder, entry.name)
    const path = relative(top, place).split(sep).join('/')
    if (entry.isDirectory()) await takeIn(place, top, files)
    else if (entry.isFile()) files.add(path, (await lstat(place)).size)
    else refuseBag(`The bag holds a link or something else that is no file: ${path}.`)
  }
}
