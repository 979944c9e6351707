import { writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { sharp } from '../../db/photos/sharp.ts'
import { keptFile } from './check-pictures.ts'
import { keptForm } from './compare-pictures.ts'
import { letterPicture } from './letter-picture.ts'
import { pictures } from './screens.ts'
import { pictureOf, type StandingDemo } from './standing-demo.ts'

/** Keeps every screen as it looks now, for later checks. */
export async function writeKept(demo: StandingDemo): Promise<void> {
  for (const picture of pictures)
    writeFileSync(keptFile(picture), await keptForm(await pictureOf(await demo.show(picture))))
}

/** The screens that the README shows. @param demo with drawn photos */
export async function writeScreensOfReadme(demo: StandingDemo): Promise<void> {
  for (const picture of pictures.filter(({ isInReadme }) => isInReadme))
    await writeDocs(picture.name, await pictureOf(await demo.show(picture)))
}

/** The owner's letter that the README shows. @param dataDir with drawn photos */
export async function writeLetterOfReadme(dataDir: string): Promise<void> {
  await writeDocs('owner-report', await letterPicture(dataDir))
}

/** Of 256 colours, which show photos well enough and weigh a third. */
async function writeDocs(name: string, picture: Uint8Array): Promise<void> {
  const path = fileURLToPath(new URL(`../../docs/${name}.png`, import.meta.url))
  const { size } = await sharp(picture).png({ palette: true, effort: 10 }).toFile(path)
  console.log(`docs/${name}.png: ${Math.ceil(size / 1_000)} kB`)
}
