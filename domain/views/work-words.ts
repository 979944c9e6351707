import type { CarState, EntryState } from '../car.ts'
import type { WorkTarget, Zone } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { capital, plural } from '../text/words.ts'

/** 'Boot floor: fabricated', or a task's name. */
export function targetWords(car: CarState, target: WorkTarget): string {
  return target.kind === 'gate'
    ? `${repairName(car, target.repairId)}: ${target.gate}`
    : (car.tasks.get(target.taskId)?.plan.name ?? 'a task')
}

/** What an entry is logged on; `car` is null for the workshop's own entries. */
export function loggedOnWords(car: CarState | null, on: EntryState['on']): string {
  if (on.kind === 'workshop') return on.what
  if (car === null) return 'work'
  const words = on.targets.slice(0, NAMED_TARGETS).map((target) => targetWords(car, target))
  const more = on.targets.length - words.length
  return more === 0 ? words.join('; ') : `${words.join('; ')}; and ${more} more`
}

export function repairName(car: CarState, id: RepairId): string {
  return car.repairs.get(id)?.plan.name ?? 'a repair'
}

/** 'right rear'. */
export const zoneWords = ({ side, place }: Zone): string => `${side} ${place}`

/** A name as it stands inside a sentence: 'boot floor, right'; names like 'A-post foot' keep their capital. */
export function inSentence(name: string): string {
  return /^\p{Lu}\p{Ll}/u.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name
}

/** With a capital and a full stop; what has them already stays as it is. */
export const asSentence = (text: string): string =>
  /[.!?]$/.test(text) ? capital(text) : `${capital(text)}.`

/** What work still asks for, the first of it in full: 'photograph it, and 2 things more to bring'; empty for nothing. */
export function toBringWords(missing: readonly string[]): string {
  const [first = '', ...others] = missing
  if (others.length === 0) return first
  return `${first.replace(/[.,;:\s]+$/, '')}, and ${plural('thing', others.length)} more to bring`
}

/** A list of names that may hold commas: 'sill, left; scuttle; and 2 more'. */
export function nameList(names: readonly string[], most: number): string {
  const shown = names.slice(0, most)
  const more = names.length - shown.length
  const glue = shown.some((name) => name.includes(',')) ? '; ' : ', '
  if (more > 0) return `${shown.join(glue)} and ${more} more`
  return shown.length < 2 ? shown.join('') : `${shown.slice(0, -1).join(glue)} and ${shown.at(-1)}`
}

/** Enough to know a clocked act by; ten cavities primed at once are a count. */
const NAMED_TARGETS = 2
