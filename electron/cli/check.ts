import { resolve } from 'node:path'
import { isClean, type CheckFinding } from '../../db/check-finding.ts'
import { checkFolder, LEFT_AFTER_MS } from '../../db/check-folder.ts'
import { photosFolder } from '../../db/data-paths.ts'
import type { Database } from '../../db/database.ts'
import { mendFindings, type Mended } from '../../db/mend.ts'
import { openDatabase } from '../../db/open-database.ts'
import { makeSizes } from '../../db/photos/sizes.ts'
import { versionWords } from '../../domain/program-version.ts'
import { plural } from '../../domain/text/words.ts'
import { readBuiltFrom } from '../built-from.ts'
import { openCopiedFiles } from '../check/copied-files.ts'
import { dataFolder, readFlags, runCommand, UsageProblem } from './command-line.ts'

const usage = `npm run check -- [--data DIR] [--mend [--from COPIES]]
  --data DIR     the data folder to verify; also while Panelwright is running on it
  --mend         puts right what can be made again: tables, sizes of photos, leftovers; Panelwright must not be running
  --from COPIES  with --mend: takes damaged photos, reports and brought-in journals from the copies in this folder`

await runCommand(usage, check)

/** Verifies a data folder and prints what it finds; 0 only when nothing is lost and nothing was changed. */
async function check(argv: readonly string[]): Promise<number> {
  const { data, from, mend } = readFlags(argv, ['data', 'from'], ['mend'])
  const dataDir = dataFolder(data)
  if (from !== undefined && mend !== true) throw new UsageProblem('--from is given with --mend.')
  return mend === true ? checkAndMend(dataDir, from) : checkOnly(dataDir)
}

async function checkOnly(dataDir: string): Promise<number> {
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const findings = await checkFolder(db, dataDir, { leftBefore: Date.now() - LEFT_AFTER_MS })
    for (const finding of findings) console.log(findingWords(finding))
    console.log(summary(dataDir, findings))
    const mendable = findings.filter(({ mend }) => mend !== null).length
    if (mendable > 0) console.log(`${mendable} of them can be mended: see --mend.`)
    return isClean(findings) ? 0 : 1
  } finally {
    db.close()
  }
}

/** Holds the folder as a host would, so that none runs beside it. */
async function checkAndMend(dataDir: string, from: string | undefined): Promise<number> {
  // A folder without a workshop is said to be one, and nothing is made in it.
  openDatabase(dataDir, { readonly: true }).close()
  const db = openDatabase(dataDir)
  try {
    const now = Date.now()
    const findings = await checkFolder(db, dataDir, { leftBefore: now })
    const mended = await mendAll(db, dataDir, findings, from, now)
    const results = new Map(mended.map((result) => [result.finding, result]))
    for (const finding of findings) console.log(findingWords(finding, results.get(finding)))
    const rest = findings.filter((finding) => results.get(finding)?.isMended !== true)
    console.log(`${findings.length - rest.length} of ${plural('finding', findings.length)} mended.`)
    console.log(summary(dataDir, rest))
    return isClean(rest) ? 0 : 1
  } finally {
    db.close()
  }
}

function mendAll(
  db: Database,
  dataDir: string,
  findings: readonly CheckFinding[],
  from: string | undefined,
  now: number,
): Promise<readonly Mended[]> {
  return mendFindings(findings, {
    db,
    dataDir,
    makeSizes: (sha256) => makeSizes(photosFolder(dataDir), sha256),
    copies: from === undefined ? null : openCopiedFiles(resolve(from), dataDir),
    now,
  })
}

function findingWords({ severity, what, meaning, todo }: CheckFinding, mended?: Mended): string {
  const head = mended?.isMended === true ? 'MENDED' : severity === 'fault' ? 'FAULT ' : 'note  '
  return [`${head} ${what}`, meaning, mended?.words ?? todo].join('\n       ').concat('\n')
}

function summary(dataDir: string, findings: readonly CheckFinding[]): string {
  const faults = findings.filter((finding) => finding.severity === 'fault').length
  const found = faults === 0 ? `All is well in ${dataDir}.` : `${plural('fault', faults)} in ${dataDir}.`
  return `${found}\nChecked by Panelwright ${versionWords(readBuiltFrom())}.`
}
