/*
 * The looks of the screens: npm run pictures [-- --write]. Compares them with the pictures that are kept beside this file and ends
 * with exit code 0 only when they look the same; with --write takes these anew, and those of the README.
 */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import process from 'node:process'
import { parseArgs } from 'node:util'
import { fillDemoInto } from '../support/filled-demo.ts'
import { checkPictures } from './check-pictures.ts'
import { pictures } from './screens.ts'
import { openStandingDemo, type StandingDemo } from './standing-demo.ts'
import { writeKept, writeLetterOfReadme, writeScreensOfReadme } from './write-pictures.ts'

const { values } = parseArgs({ options: { write: { type: 'boolean', default: false } } })
process.exitCode = await (values.write ? write() : check())

async function check(): Promise<number> {
  const faults = await onDemo('tiny', (demo) => checkPictures(demo))
  for (const fault of faults) console.error(fault)
  if (faults.length === 0) console.log(`All ${pictures.length} screens look as they are kept.`)
  else console.error('Is that what was wanted? Then keep them anew: npm run pictures -- --write')
  return faults.length === 0 ? 0 : 1
}

async function write(): Promise<number> {
  await onDemo('tiny', writeKept)
  console.log(`${pictures.length} screens are kept.`)
  await onDemo('drawn', async (demo, dataDir) => {
    await writeScreensOfReadme(demo)
    await writeLetterOfReadme(dataDir)
  })
  return 0
}

async function onDemo<T>(
  photos: 'tiny' | 'drawn',
  use: (demo: StandingDemo, dataDir: string) => Promise<T>,
): Promise<T> {
  console.error(`Filling the demo with ${photos} photos; this takes a quarter of a minute or two.`)
  const dataDir = mkdtempSync(join(tmpdir(), 'panelwright-pictures-'))
  try {
    await fillDemoInto(dataDir, photos)
    const demo = await openStandingDemo(dataDir)
    try {
      return await use(demo, dataDir)
    } finally {
      await demo.close()
    }
  } finally {
    rmSync(dataDir, { recursive: true, force: true })
  }
}
