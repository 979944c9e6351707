import { createHash } from 'node:crypto'
import { cpSync, existsSync, globSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { fillYears } from './ten-years.ts'

const SEED = 1

/** What decides what a filled folder holds: another digest of these files fills a new one. */
const SOURCES = [
  'db/*rows.ts',
  'db/append-facts.ts',
  'db/migrations/*.sql',
  'domain/{estimate,facts,state,value}/*.ts',
  'tests/bench/ten-years*.ts',
]

/**
 * A data folder of its own with so many years of records, to be removed by the caller. What is filled is kept in the folder
 * for temporary files, by seed and sources, so that a second run only copies it.
 */
export function folderOfYears(years: number): string {
  const kept = join(tmpdir(), `panelwright-years-${years}-seed-${SEED}-${sourceDigest()}`)
  if (!existsSync(kept)) {
    console.error(`Filling ${years} years of records; this takes a minute or two a decade.`)
    const begun = performance.now()
    const filling = mkdtempSync(join(tmpdir(), 'panelwright-filling-'))
    fillYears(filling, years, SEED)
    renameSync(filling, kept)
    console.error(`Filled in ${Math.round((performance.now() - begun) / 1_000)} s.`)
  }
  const copy = mkdtempSync(join(tmpdir(), 'panelwright-records-'))
  rmSync(copy, { recursive: true })
  cpSync(kept, copy, { recursive: true })
  return copy
}

function sourceDigest(): string {
  const root = fileURLToPath(new URL('../../', import.meta.url))
  const digest = createHash('sha256')
  for (const path of SOURCES.flatMap((pattern) => globSync(pattern, { cwd: root })).toSorted())
    digest.update(`${path}\0`).update(readFileSync(join(root, path)))
  return digest.digest('hex').slice(0, 12)
}
