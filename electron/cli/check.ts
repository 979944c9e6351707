import { checkDatabase } from '../../db/check.ts'
import { isClean, type CheckFinding } from '../../db/check-finding.ts'
import { photosFolder } from '../../db/data-paths.ts'
import { openDatabase } from '../../db/open-database.ts'
import { openPhotoReader } from '../../db/photos/photo-store.ts'
import { plural } from '../../domain/text/words.ts'
import { dataFolder, readFlags, runCommand } from './command-line.ts'

const usage = `npm run check -- [--data DIR]
  --data DIR  the data folder to verify; also while Panelwright is running on it`

await runCommand(usage, check)

/** Verifies a data folder and prints what it finds; 0 only when nothing is lost and nothing was changed. */
async function check(argv: readonly string[]): Promise<number> {
  const dataDir = dataFolder(readFlags(argv, ['data']).data)
  const db = openDatabase(dataDir, { readonly: true })
  try {
    const findings = await checkDatabase(db, openPhotoReader(photosFolder(dataDir)))
    for (const finding of findings) console.log(findingWords(finding))
    console.log(summary(dataDir, findings))
    return isClean(findings) ? 0 : 1
  } finally {
    db.close()
  }
}

function findingWords({ severity, what, meaning, todo }: CheckFinding): string {
  return `${severity === 'fault' ? 'FAULT' : 'note '}  ${what}\n       ${meaning}\n       ${todo}\n`
}

function summary(dataDir: string, findings: readonly CheckFinding[]): string {
  const faults = findings.filter((finding) => finding.severity === 'fault').length
  return faults === 0 ? `All is well in ${dataDir}.` : `${plural('fault', faults)} in ${dataDir}.`
}
