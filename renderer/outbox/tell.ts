import { momentWords } from '../../domain/rules/time-holds.ts'
import type { Command, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { dateRangeWords, dayWords } from '../../domain/text/words.ts'
import { commandWords } from '../../domain/views/command-words.ts'
import type { RecordNames } from '../../domain/views/record-names.ts'
import type { Told } from './told.ts'

/**
 * What a command says, with the names that the screens have read so far.
 *
 * @param views what the host has answered, of whatever kind
 * @param now epoch milliseconds by the host's clock
 */
export function tellCommand(
  command: Command,
  views: readonly unknown[],
  { now, zone }: { readonly now: number; readonly zone: string },
): Told {
  const found = new Map<string, string>()
  for (const view of views) collect(view, found)
  const names = namesOf(found, now, zone)
  const repairs = repairsIn(command.payload).flatMap((id) => found.get(id) ?? [])
  const car = command.carId === null ? undefined : found.get(command.carId)
  return {
    what: commandWords(command, names),
    where: [car ?? (command.carId === null ? '' : 'a car'), ...repairs]
      .filter((name) => name !== '')
      .join(', '),
    on:
      command.kind === 'startClock'
        ? names.targets((command.payload as CommandPayload<'startClock'>).on)
        : '',
    by: command.by === null ? '' : (found.get(command.by) ?? ''),
  }
}

function namesOf(found: ReadonlyMap<string, string>, now: number, zone: string): RecordNames {
  const year = new Date(now).getUTCFullYear()
  const of = (id: string): string => found.get(id) ?? 'something'
  const target = (each: WorkTarget): string =>
    each.kind === 'gate' ? `${of(each.repairId)}: ${each.gate}` : of(each.taskId)
  return {
    of,
    target,
    targets: (on) => (on.kind === 'workshop' ? on.what : on.targets.map(target).join('; ')),
    entry: (id) => found.get(id) ?? 'the work that it ran on',
    day: (date) => dayWords(date, year),
    days: (from, to) => dateRangeWords(from, to, year),
    moment: (iso) => momentWords(Date.parse(iso), zone, now),
    money: () => 'an amount',
  }
}

/** By which key views give a name to the id beside it. */
const NAMED: readonly (readonly [id: string, names: readonly string[]])[] = [
  ['id', ['name', 'title', 'words']],
  ['carId', ['carName', 'name']],
  ['repairId', ['repairName', 'name']],
  ['taskId', ['name']],
  ['entryId', ['what']],
  ['edgeId', ['name']],
  ['jointId', ['name']],
  ['personId', ['name']],
]

function collect(value: unknown, found: Map<string, string>): void {
  if (Array.isArray(value)) {
    for (const each of value) collect(each, found)
    return
  }
  if (typeof value !== 'object' || value === null) return
  const fields = value as Readonly<Record<string, unknown>>
  for (const [idKey, nameKeys] of NAMED) {
    const id = fields[idKey]
    const name = nameKeys.map((key) => fields[key]).find((each) => typeof each === 'string')
    // A line of work carries the name of its car and its own: the car's comes first, so that it is not taken for the work.
    if (typeof id === 'string' && typeof name === 'string' && !found.has(id)) found.set(id, name)
  }
  for (const each of Object.values(fields)) collect(each, found)
}

function repairsIn(payload: unknown): readonly string[] {
  if (typeof payload !== 'object' || payload === null) return []
  const { repairId, repairIds, serves } = payload as Readonly<Record<string, unknown>>
  if (typeof repairId === 'string') return [repairId]
  if (Array.isArray(repairIds)) return repairIds.filter((id) => typeof id === 'string')
  if (Array.isArray(serves)) return [...new Set(serves.flatMap(repairsIn))]
  return []
}
