import type { Fact } from '../facts.ts'
import type { EntryId, RepairId } from '../ids.ts'
import type { RepairPlan, WorkTarget } from '../facts/shapes.ts'
import { moneyWords } from '../text/money-words.ts'
import { dateRangeWords, dayWords, fixed } from '../text/words.ts'
import { momentWords } from '../rules/time-holds.ts'
import type { EntryState } from '../car.ts'
import type { ViewContext } from './view-context.ts'

/** How the record names what its facts are about: as it was last called, whether it still stands or not. */
export interface RecordNames {
  readonly of: (id: string) => string
  readonly target: (target: WorkTarget) => string
  readonly targets: (on: EntryState['on']) => string
  /** What an entry was logged on. */
  readonly entry: (id: EntryId) => string
  readonly day: (date: string) => string
  readonly days: (from: string, to: string) => string
  readonly moment: (iso: string) => string
  readonly money: (amount: number) => string
}

/** Also names people, parties and bays by their id. Names are taken from the facts themselves, so that what was voided, retired or dissolved keeps its name. Amounts of money are left out of words that others than managers read. */
export function recordNames(facts: readonly Fact[], context: ViewContext, showsMoney: boolean): RecordNames {
  const { workshop, nameOf, year, at } = context
  const names = new Map<string, string>([...workshop.bays.values()].map(({ id, name }) => [id, name]))
  for (const fact of facts) {
    for (const [id, name] of namesIn(fact)) names.set(id, name)
    if (fact.kind === 'shellReturned' && !names.has(fact.payload.bayId))
      names.set(fact.payload.bayId, 'a bay of another workshop')
  }
  const of = (id: string): string => names.get(id) ?? nameOf(id)
  const target = (each: WorkTarget): string =>
    each.kind === 'gate' ? `${of(each.repairId)}: ${each.gate}` : of(each.taskId)
  const targets = (on: EntryState['on']): string =>
    on.kind === 'workshop' ? on.what : on.targets.map(target).join('; ')
  const entries = new Map(facts.flatMap(entryIn))
  return {
    of,
    target,
    targets,
    entry: (id) => targets(entries.get(id) ?? NOTHING),
    day: (date) => dayWords(date, year),
    days: (from, to) => dateRangeWords(from, to, year),
    money: (amount) => (showsMoney ? moneyWords(amount, workshop.currency) : 'an amount'),
    moment: (iso) => momentWords(Date.parse(iso), workshop.zone, at),
  }
}

/** Stands for a person's name in words that are kept: names change, and may be erased. */
export const idInWords = (id: string): string => `@[${id}]`

/** Kept words with the names of the people in them, as they are called now. */
export function nameIdsInWords(words: string, nameOf: (id: string) => string): string {
  return words.replace(/@\[([^[\]]+)\]/g, (_whole, id: string) => nameOf(id))
}

const NOTHING: EntryState['on'] = { kind: 'workshop', what: 'work that is not known' }

function entryIn(fact: Fact): readonly (readonly [EntryId, EntryState['on']])[] {
  return fact.kind === 'clockStarted' || fact.kind === 'timeLogged' || fact.kind === 'timeCorrected'
    ? [[fact.payload.entryId, fact.payload.on]]
    : []
}

/** Hours in the record keep their quarters: '2.25 h'. */
export const hoursWords = (hours: number): string => `${fixed(hours, 2).replace(/0$/, '')} h`

type Named = readonly (readonly [id: string, name: string])[]

function namesIn(fact: Fact): Named {
  switch (fact.kind) {
    case 'repairAdded':
    case 'repairChanged':
      return planNames(fact.payload.repairId, fact.payload.plan)
    case 'repairSplit':
      return planNames(fact.payload.newRepairId, fact.payload.plan)
    case 'taskAdded':
    case 'taskChanged':
      return [[fact.payload.taskId, fact.payload.plan.name]]
    case 'fitGroupSet':
      return [[fact.payload.groupId, fact.payload.name]]
    case 'dimensionAdded':
      return [[fact.payload.dimensionId, fact.payload.name]]
    case 'partNeeded':
      return [[fact.payload.partId, fact.payload.name]]
    case 'variationRaised':
      return [[fact.payload.variationId, fact.payload.title]]
    case 'costSpent':
      return [[fact.payload.spendingId, fact.payload.name]]
    case 'costsSet':
      return fact.payload.costs.map(({ costId, name }) => [costId, name] as const)
    case 'holdSet':
      return [[fact.payload.holdId, fact.payload.words]]
    case 'bayAdded':
    case 'bayChanged':
      return [[fact.payload.bayId, fact.payload.name]]
    case 'typeSaved':
      return [[fact.payload.typeId, fact.payload.plan.name]]
    default:
      return []
  }
}

function planNames(repairId: RepairId, plan: RepairPlan): Named {
  return [
    [repairId, plan.name],
    ...plan.layers.map(({ layerId, name }) => [layerId, name] as const),
    ...plan.parts.map(({ partId, name }) => [partId, name] as const),
  ]
}
