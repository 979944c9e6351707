import { eq, max } from 'drizzle-orm'
import { FACT_VERSION, type PayloadOf } from '../domain/facts.ts'
import { listCameJournals, readCameJournal } from './brought-in-files.ts'
import { readCameChain } from './came-chain.ts'
import { fault, note, TAKE_FROM_COPY, type CheckFinding } from './check-finding.ts'
import { broughtInFolder } from './data-paths.ts'
import type { Handle } from './handle.ts'
import { journal, payload } from './schema.ts'

/** What the journal says of the file that a car came with. */
export type CameRecord = Pick<PayloadOf<'carBroughtIn'>, 'from' | 'head' | 'lines' | 'journal'>

/** The last one of each car: what came with a file from a third workshop before stands in that file. */
export function readCameRecords({ orm }: Handle): readonly CameRecord[] {
  const last = orm
    .select({ number: max(journal.number).as('last') })
    .from(journal)
    .where(eq(journal.kind, 'carBroughtIn'))
    .groupBy(journal.chain)
    .as('last')
  const rows = orm
    .select({ json: payload.json })
    .from(payload)
    .innerJoin(last, eq(last.number, payload.number))
    .all()
  return rows.map(({ json }) => JSON.parse(json) as CameRecord)
}

/** Every journal that came with a car, against its digest and from its own chain. */
export async function checkCameJournals(
  dataDir: string | null,
  records: readonly CameRecord[],
): Promise<readonly CheckFinding[]> {
  if (dataDir === null) return []
  const findings: CheckFinding[] = []
  for (const record of records) {
    const problem = problemOf(record, await readCameJournal(broughtInFolder(dataDir), record.journal))
    if (problem) findings.push(lost(record, problem))
  }
  return [...findings, ...(await strays(broughtInFolder(dataDir), records))]
}

function lost({ from, journal: sha256 }: CameRecord, problem: string): CheckFinding {
  return fault(`The journal that came from ${from} ${problem}.`, PROOF, TAKE_FROM_COPY, {
    by: 'taking from a copy',
    file: { kind: 'journal that came', sha256 },
  })
}

/** Kept before its car is recorded: a kill in between leaves it. */
async function strays(folder: string, records: readonly CameRecord[]): Promise<readonly CheckFinding[]> {
  const named = new Set(records.map((record) => `${record.journal}.jsonl`))
  const unused = (await listCameJournals(folder)).filter((name) => !named.has(name))
  return unused.map((name) =>
    note(
      `The file ${name.slice(0, 12)} of brought-in journals belongs to no car.`,
      'The program ended, or the car was refused, while it was being brought in.',
      'Nothing needs to be done.',
    ),
  )
}

function problemOf({ head, lines }: CameRecord, text: string | null): string | null {
  if (text === null) return 'is missing or is not what came'
  const chain = readCameChain(text, FACT_VERSION)
  if (!chain.ok) return `is broken: ${chain.refusal.message.replace(/\.$/, '')}`
  return chain.value.hash === head && chain.value.lines === lines
    ? null
    : 'is another one than was brought in'
}

const PROOF = 'The proof of what was recorded there is lost. What was taken over is not touched.'
