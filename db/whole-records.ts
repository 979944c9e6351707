import { gt, notInArray, sql } from 'drizzle-orm'
import { canonicalJson } from '../domain/text/canonical-json.ts'
import { OF_THE_COMPUTER, type WholePart, type WholeRecord } from '../domain/whole/whole-shapes.ts'
import { DatabaseProblem } from './database-problem.ts'
import type { Handle } from './handle.ts'
import { payloadDigest } from './journal-hash.ts'
import { contentToPlan, planRowOn } from './kept-plans.ts'
import { commandAnswer, contact, keptPlan, photo, preparedReport, reportDraft, setting } from './schema.ts'
import { storedLines, type StoredLine } from './stored-lines.ts'

/**
 * The records of one part of the workshop in an order that is always the same, as text of JSON Lines in pieces of any
 * length. Only a page of them is in memory at a time.
 *
 * @throws DatabaseProblem where what is stored is not what was recorded: a take-out would pass the damage on
 */
export function* wholeLines(reader: Handle, part: WholePart): Generator<string> {
  for (const records of pages[part](reader))
    yield records.map((record) => `${JSON.stringify(record)}\n`).join('')
}

type Pages = {
  readonly [P in WholePart]: (reader: Handle) => Iterable<readonly WholeRecord<P>[]>
}

const AT_ONCE = 1_000

const pages: Pages = {
  journal: journalPages,
  answers: answerPages,
  contacts: ({ orm }) => [orm.select().from(contact).orderBy(contact.id).all()],
  plans: planPages,
  photos: ({ orm }) => [orm.select().from(photo).orderBy(photo.sha256).all()],
  drafts: ({ orm }) => [
    orm
      .select()
      .from(reportDraft)
      .orderBy(reportDraft.visitId, reportDraft.week)
      .all()
      .map(({ choices, ...draft }) => ({ ...draft, choices: { ...choices } })),
  ],
  prepared: ({ orm }) => [
    orm
      .select()
      .from(preparedReport)
      .orderBy(preparedReport.visitId, preparedReport.week)
      .all()
      .map(({ problems, ...prepared }) => ({ ...prepared, problems: [...problems] })),
  ],
  settings: ({ orm }) => [
    orm
      .select()
      .from(setting)
      .where(notInArray(setting.name, [...OF_THE_COMPUTER]))
      .orderBy(setting.name)
      .all(),
  ],
}

function* journalPages(reader: Handle): Generator<readonly WholeRecord<'journal'>[]> {
  for (const lines of storedLines(reader)) yield lines.map(toLine)
}

/** As it is read again: what would come back with another digest is not taken out. */
function toLine({ json, salt, ...line }: StoredLine): WholeRecord<'journal'> {
  const content = json === null || salt === null ? null : parsed(json)
  if (json === null || salt === null || content === null || payloadDigest(salt, json) !== line.digest)
    throw changed(`Line ${line.number} of the journal`)
  return { ...line, salt: salt.toString('hex'), payload: content }
}

/** Null for text that is not its own canonical form. */
function parsed(json: string): Record<string, unknown> | null {
  try {
    const content: unknown = JSON.parse(json)
    return canonicalJson(content) === json ? (content as Record<string, unknown>) : null
  } catch (error) {
    if (error instanceof SyntaxError) return null
    throw error
  }
}

function* answerPages({ orm }: Handle): Generator<readonly WholeRecord<'answers'>[]> {
  for (let after = ''; ;) {
    const answers = orm
      .select()
      .from(commandAnswer)
      .where(gt(commandAnswer.commandId, sql`${after}`))
      .orderBy(commandAnswer.commandId)
      .limit(AT_ONCE)
      .all()
    yield answers.map((answer) => ({ ...answer, numbers: [...answer.numbers] }))
    const last = answers.at(-1)
    if (!last) return
    after = last.commandId
  }
}

/** In the order in which they were kept, which a history shows; one at a time, as a plan is large. */
function* planPages(reader: Handle): Generator<readonly WholeRecord<'plans'>[]> {
  const ids = reader.orm
    .select({ planId: keptPlan.planId })
    .from(keptPlan)
    .orderBy(sql`rowid`)
    .all()
  for (const { planId } of ids) {
    const row = planRowOn(reader, planId)
    const plan = row && contentToPlan(row)
    if (!row || !plan) throw changed(`The kept plan ${planId}`)
    const { content: _packed, ...kept } = row
    yield [{ ...kept, plan }]
  }
}

const changed = (what: string): DatabaseProblem =>
  new DatabaseProblem(
    `${what} is not what was recorded. Run the check on this folder, and take out of the newest copy that passes it.`,
  )
