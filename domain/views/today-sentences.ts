import { isInWork, isRootHold } from './car-line.ts'
import { capital, dayWords } from '../text/words.ts'
import type { HoldView } from './shared-views.ts'
import type { CarOnFloor } from './car-on-floor.ts'
import type { ViewContext } from './view-context.ts'
import type { WorkItem } from './work-items.ts'
import { inSentence, nameList } from './work-words.ts'

/** What may be done now, who waits for what, and which cars go where today; the most urgent car first. */
export function todaySentences(floor: readonly CarOnFloor[], context: ViewContext): readonly string[] {
  return floor.flatMap((each) => [
    ...moveSentences(each, context),
    ...(isInWork(each.car) && each.car.standing !== null
      ? [...maySentences(each), ...waitSentences(each)]
      : []),
  ])
}

/** A car's share of the sentences: enough to start the day with, the car's own page has the rest. */
const MAY_NAMES = 3
const MOST_WAITS = 2

/** 'Dunmere Saloon: boot floor may be fabricated (Joss is on it); scuttle and battery tray may be opened.' */
function maySentences({ car, items }: CarOnFloor): readonly string[] {
  const free = items.filter((item) => item.mayBeWorkedOn)
  if (free.length === 0) return []
  const byGate = Map.groupBy(free, ({ done }) => done)
  const parts = [...byGate].map(([done, of]) => `${nameList(of.map(nameWords), MAY_NAMES)} may be ${done}`)
  return [`${car.name}: ${parts.join('; ')}.`]
}

function nameWords({ name, onIt }: WorkItem): string {
  if (onIt.length === 0) return inSentence(name)
  return `${inSentence(name)} (${nameList(onIt, MAY_NAMES)} ${onIt.length === 1 ? 'is' : 'are'} on it)`
}

/** 'Velloran: roof gutter cannot be primed yet: sealed cures until Thu 26 Nov 14:30.' */
function waitSentences({ car, items }: CarOnFloor): readonly string[] {
  const said = new Set<string>()
  const waits: string[] = []
  for (const item of items) {
    const hold = item.holds.find((each) => isRootHold(each) && !said.has(keyOf(each)))
    if (hold === undefined) continue
    said.add(keyOf(hold))
    waits.push(`${car.name}: ${inSentence(item.name)} cannot be ${item.done} yet: ${reasonWords(item, hold)}`)
  }
  const more = waits.length - MOST_WAITS
  return more > 0
    ? [
        ...waits.slice(0, MOST_WAITS),
        `${car.name}: ${more} more ${more === 1 ? 'wait' : 'waits'}, see its page.`,
      ]
    : waits
}

const keyOf = ({ code, subject }: HoldView): string => `${code}/${subject}`

/** The hold's own words after a colon, without the name that the sentence has said. */
function reasonWords({ name }: WorkItem, { words }: HoldView): string {
  const own = words.startsWith(`${name}: `) ? words.slice(name.length + 2) : words
  return `${inSentence(own).replace(/\.$/, '')}.`
}

/** Where a car goes today, and where one stands past its booking. */
function moveSentences({ car, line }: CarOnFloor, { today, year, workshop }: ViewContext): readonly string[] {
  const standsIn = car.standing?.bayId
  const bookings = [...car.bookings.values()].filter(({ cancelled }) => cancelled === null)
  const comes = bookings.find(({ bayId, from }) => from === today && bayId !== standsIn)
  const here = bookings.filter(({ bayId, from }) => bayId === standsIn && from <= today)
  const last = here
    .map(({ to }) => to)
    .toSorted()
    .at(-1)
  return [
    ...(comes ? [`${car.name} goes into ${workshop.bays.get(comes.bayId)?.name ?? 'its bay'} today.`] : []),
    ...(last !== undefined && last < today
      ? [capital(`${car.name} was booked in ${line.place} until ${dayWords(last, year)} and is still there.`)]
      : []),
  ]
}
