import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { compareWithKept, isSame, marked } from './compare-pictures.ts'
import { type Picture, pictures } from './screens.ts'
import { pictureOf, type StandingDemo } from './standing-demo.ts'

export const keptFile = ({ name }: Pick<Picture, 'name'>): string =>
  fileURLToPath(new URL(`./kept/${name}.png`, import.meta.url))

/** A sentence for each screen that looks otherwise than the picture that is kept of it. */
export async function checkPictures(demo: StandingDemo): Promise<readonly string[]> {
  const faults: string[] = []
  for (const picture of pictures) {
    const taken = await pictureOf(await demo.show(picture))
    if (!existsSync(keptFile(picture))) {
      faults.push(`No picture of '${picture.name}' is kept.`)
      continue
    }
    const difference = await compareWithKept(taken, readFileSync(keptFile(picture)))
    if (isSame(difference)) continue
    const path = leave(picture.name, await marked(taken, difference))
    const percent = (difference.share * 100).toFixed(1)
    faults.push(`'${picture.name}' looks otherwise on ${percent} % of its blocks: see ${path}`)
  }
  return faults
}

/** In the folder for temporary files. */
function leave(name: string, picture: Uint8Array): string {
  const folder = join(tmpdir(), 'panelwright-screens')
  mkdirSync(folder, { recursive: true })
  const path = join(folder, `picture-${name}.png`)
  writeFileSync(path, picture)
  return path
}
