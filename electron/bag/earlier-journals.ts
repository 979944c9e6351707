import { Readable } from 'node:stream'
import { broughtInFolder } from '../../db/data-paths.ts'
import { readCameJournal } from '../../db/brought-in-files.ts'
import { readPayload } from '../../db/journal-converters.ts'
import { createJournalVerifier } from '../../db/journal-verifier.ts'
import type { Fact, PayloadOf } from '../../domain/facts.ts'
import { narrowedLine } from '../../domain/report/car-file-line.ts'
import { CAR_FILE_PATHS, carFileLineSchema, type CarFileLine } from '../../domain/report/car-file-shapes.ts'
import type { FileChoices } from '../../domain/report/file-choices.ts'
import { canonicalJson } from '../../domain/text/canonical-json.ts'
import type { BagEntry } from './bag-shapes.ts'
import { missingFile } from './kept-files.ts'

export interface EarlierOptions {
  readonly dataDir: string
  readonly choices: FileChoices
  /** Told of every line that leaves. */
  readonly onLine: (line: CarFileLine) => void
}

/**
 * The records that a car came with from other workshops, as the proof of what was recorded there: with no more in them than
 * came, and than may leave now.
 */
export function earlierEntries(facts: readonly Fact[], options: EarlierOptions): readonly BagEntry[] {
  return facts.flatMap((fact) =>
    fact.kind === 'carBroughtIn'
      ? [
          {
            path: CAR_FILE_PATHS.earlier(fact.payload.head),
            open: async () => Readable.from(await linesOf(fact.payload, options)),
          },
        ]
      : [],
  )
}

async function linesOf(
  { journal, head, from }: PayloadOf<'carBroughtIn'>,
  { dataDir, choices, onLine }: EarlierOptions,
): Promise<readonly string[]> {
  const what = `the record that came with this car from ${from}`
  const text = await readCameJournal(broughtInFolder(dataDir), journal)
  if (text === null) throw missingFile(what)
  const verifier = createJournalVerifier()
  const lines = text.split('\n').filter((line) => line !== '')
  const narrowed = lines.map((json) => {
    const line = carFileLineSchema.parse(JSON.parse(json))
    const leaves = line.shown === 'whole' ? narrowedLine(line, readPayload(written(line)), choices) : line
    verifier.take(leaves)
    onLine(leaves)
    return `${canonicalJson(leaves)}\n`
  })
  const end = verifier.finish()
  if (!end.ok || end.value.hash !== head || end.value.lines !== lines.length)
    throw missingFile(what, 'does not verify any more')
  return narrowed
}

const written = ({ kind, version, payload }: Extract<CarFileLine, { readonly shown: 'whole' }>) => ({
  kind,
  version,
  json: canonicalJson(payload),
})
