import type { Fact } from '../facts.ts'
import type { RepairId } from '../ids.ts'
import { isVoidable } from '../commands/decide-void.ts'
import { voidedNumbers } from '../state/fact-stamp.ts'
import { recordNames } from './record-names.ts'
import { factWords } from './record-words.ts'
import { createViewContext, stampName, type ViewInput } from './view-context.ts'
import type { RecordView } from './view-shapes.ts'

export interface RecordInput extends ViewInput {
  readonly facts: readonly Fact[]
  /** The digest of the chain's last line. */
  readonly head: string
  /** Amounts of money are for managers. */
  readonly showsMoney: boolean
}

/** The facts of one chain, the latest first, in words. */
export function recordView({ facts, head, showsMoney, ...input }: RecordInput): RecordView {
  const context = createViewContext(input)
  const names = recordNames(facts, context, showsMoney)
  const voided = voidedNumbers(facts)
  const came = facts.findLast(({ kind }) => kind === 'carBroughtIn')?.number ?? 0
  const lines = facts.map((fact) => ({
    number: fact.number,
    kind: fact.kind,
    happened: Date.parse(fact.happened),
    recorded: Date.parse(fact.recorded),
    by: stampName(fact, context.nameOf),
    words: factWords(fact, names),
    voided: voided.has(fact.number),
    mayVoid: fact.number > came && isVoidable(fact.kind) && !voided.has(fact.number),
    repairId: repairOf(fact),
  }))
  return { lines: lines.toReversed(), head }
}

/** The repair that a line leads to; null where it is about none or about several. */
function repairOf({ payload }: Fact): RepairId | null {
  if ('repairId' in payload) return payload.repairId
  if ('repairIds' in payload && payload.repairIds.length === 1) return payload.repairIds[0] ?? null
  return null
}
