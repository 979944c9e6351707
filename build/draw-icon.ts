/* Draws every icon of the program from icon.svg. Run after a change of it; a test compares what is kept with it. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { drawIcons, iconPaths } from './icons.ts'

const beside = (name: string) => fileURLToPath(new URL(name, import.meta.url))

mkdirSync(beside('./icons'), { recursive: true })
const drawn = await drawIcons(readFileSync(beside('./icon.svg'), 'utf8'))
for (const [path, bytes] of iconPaths(drawn)) writeFileSync(beside(path), bytes)
