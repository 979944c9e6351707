import { canonicalJson } from '../domain/text/canonical-json.ts'
import { FACT_VERSION, isFactKind } from '../domain/facts.ts'
import type { WholePart, WholeRecord } from '../domain/whole/whole-shapes.ts'
import { DatabaseProblem } from './database-problem.ts'
import { inTransaction, perHandle, type Handle } from './handle.ts'
import { planToContent } from './kept-plans.ts'
import { placeholders } from './placeholders.ts'
import {
  commandAnswer,
  contact,
  journal,
  keptPlan,
  keptPlanCar,
  payload,
  photo,
  preparedReport,
  reportDraft,
  setting,
} from './schema.ts'

/**
 * Writes records of a workshop that was taken out into an empty database, as they stood: numbers, times, salts and hashes
 * stay. What is derived is not made here, and nothing is verified but what cannot be written otherwise.
 *
 * @throws DatabaseProblem for facts of a newer program; SqliteError for a number or an id that is there already
 */
export function writeWhole<P extends WholePart>(
  writer: Handle,
  part: P,
  records: readonly WholeRecord<P>[],
): void {
  inTransaction(writer, () => records.forEach((record) => writers[part](writer, record)))
}

type Writers = { readonly [P in WholePart]: (writer: Handle, record: WholeRecord<P>) => void }

const writers: Writers = {
  journal: writeLine,
  answers: (writer, record) => statements(writer).answer.run(record),
  contacts: (writer, record) => statements(writer).contact.run(record),
  plans: writePlan,
  photos: (writer, record) => statements(writer).photo.run(record),
  drafts: (writer, record) => statements(writer).draft.run(record),
  prepared: (writer, record) => statements(writer).prepared.run(record),
  settings: (writer, record) => statements(writer).setting.run(record),
}

function writeLine(writer: Handle, record: WholeRecord<'journal'>): void {
  const { salt, payload: content, kind, ...line } = record
  if (!isFactKind(kind) || line.version > FACT_VERSION)
    throw new DatabaseProblem(
      `Line ${line.number} of the journal was written by a newer Panelwright. Install the newer program and take the workshop in with it.`,
    )
  statements(writer).line.run({ ...line, kind })
  const { number } = line
  statements(writer).payload.run({ number, json: canonicalJson(content), salt: Buffer.from(salt, 'hex') })
}

function writePlan(writer: Handle, { plan, ...kept }: WholeRecord<'plans'>): void {
  const packed = planToContent(plan)
  if (packed.sha256 !== kept.sha256)
    throw new DatabaseProblem(
      `The plan ${kept.planId} is not the one that was kept. Take the workshop out once more and try with that.`,
    )
  statements(writer).plan.run({ ...kept, content: packed.content })
  const { planId } = kept
  for (const { carId, finish50, finish80 } of plan.cars)
    statements(writer).planCar.run({ planId, carId, finish50, finish80 })
}

const statements = perHandle(({ orm }) => ({
  line: orm.insert(journal).values(placeholders(journal)).prepare(),
  payload: orm.insert(payload).values(placeholders(payload)).prepare(),
  answer: orm.insert(commandAnswer).values(placeholders(commandAnswer)).prepare(),
  contact: orm.insert(contact).values(placeholders(contact)).prepare(),
  plan: orm.insert(keptPlan).values(placeholders(keptPlan)).prepare(),
  planCar: orm.insert(keptPlanCar).values(placeholders(keptPlanCar)).prepare(),
  photo: orm.insert(photo).values(placeholders(photo)).prepare(),
  draft: orm.insert(reportDraft).values(placeholders(reportDraft)).prepare(),
  prepared: orm.insert(preparedReport).values(placeholders(preparedReport)).prepare(),
  setting: orm.insert(setting).values(placeholders(setting)).prepare(),
}))
