import { localDateOf } from '../time/zone.ts'
import { mayBeWorkedOn } from '../views/hold-view.ts'
import { isRootHold } from '../views/car-line.ts'
import type { HoldView } from '../views/shared-views.ts'
import { type WorkItem, workItems } from '../views/work-items.ts'
import { capital } from '../views/work-words.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { gateAims } from './plain-words.ts'
import { atMost, clause, ended } from './sentences.ts'
import { dateWords, dayOf, type Telling } from './telling.ts'

const MOST_ITEMS = 6

/** What may be worked on now, and what waits for whom; empty once the work is over or paused. */
export function nextSection(telling: Telling): ReportSection | null {
  const free = nextItems(telling).filter((item) => item.mayBeWorkedOn)
  const waiting = waits(telling).map(({ name, reason }) => `${name}: ${reason}`)
  const blocks: readonly ReportBlock[] = [
    ...listBlocks('We can go on with this:', free.map(aimText)),
    ...listBlocks('This waits:', waiting),
  ]
  return blocks.length === 0 ? null : { heading: 'What comes next', blocks }
}

/** Gates and tasks that come next; none while the visit is not in work. */
export function nextItems({ car, visit, context }: Telling): readonly WorkItem[] {
  return visit.status === 'in work' && car.currentVisit === visit.id ? workItems(car, context) : []
}

/** What waits, each reason once, with the first piece of work that it holds. */
export function waits(telling: Telling): readonly Wait[] {
  const said = new Set<string>()
  return nextItems(telling).flatMap((item) => {
    const hold = mayBeWorkedOn(item.holds) ? undefined : item.holds.find(isRootHold)
    const key = hold && `${hold.code}/${hold.subject}`
    if (hold === undefined || key === undefined || said.has(key)) return []
    said.add(key)
    return [
      { name: hold.code === 'away' ? 'All work on the shell' : item.name, reason: reasonFor(telling, hold) },
    ]
  })
}

export interface Wait {
  readonly name: string
  /** With its full stop; begins small. */
  readonly reason: string
}

function aimText({ name, work }: WorkItem): string {
  return work.kind === 'gate' ? `${name}: ${gateAims[work.gate]}.` : `${name}.`
}

/** The hold as the owner should read it: what the workshop's people would do about it is left out. */
function reasonFor(telling: Telling, { code, subject, words, clearedBy, until }: HoldView): string {
  switch (code) {
    case "owner's decision":
      return agreementReason(telling, subject, clearedBy)
    case 'declined':
      return 'the extra work was declined, and what happens now is not settled yet.'
    case 'support':
      return 'it waits until the other side is closed: the shell keeps one side whole at all times.'
    case 'away':
      return awayReason(telling)
    case 'window':
      return 'its surface must be cleaned again first, because the time for the next coat is over.'
    case 'evidence':
      return clearedBy === 'the manager'
        ? 'it waits for our review of the estimate.'
        : ended(clause(words, 'small'))
    case 'parts':
      return partReason(telling, subject)
    case 'task':
      return taskReason(telling, subject, words)
    case 'curing':
      return until === null ? ended(clause(words, 'small')) : `it must cure until ${dayOf(telling, until)}.`
    case 'skill':
      return 'it waits for somebody with the skill it needs.'
    default:
      return ended(clause(words, 'small'))
  }
}

function agreementReason({ car }: Telling, subject: string, clearedBy: string): string {
  const variation = [...car.variations.values()].find(({ id }) => id === subject)
  const payer =
    variation?.payer ?? (clearedBy === 'the insurer' ? 'insurer' : clearedBy === 'the owner' ? 'owner' : null)
  if (payer === null) return 'it is not estimated and agreed yet.'
  if (payer === 'workshop') return 'it waits for a decision of our own.'
  const what = variation === undefined ? 'the estimate' : `‘${clause(variation.title)}’`
  return `it waits for ${payer === 'owner' ? 'your' : 'the insurer’s'} answer on ${what}.`
}

/** 'it waits for a part, ‘Hinge’, which is ordered and expected on Wed 9 Dec.' */
function partReason(telling: Telling, subject: string): string {
  const part = [...telling.car.parts.values()].find(({ id }) => id === subject)
  if (part === undefined) return 'it waits for a part.'
  const { name, state, expected } = part
  return `it waits for a part, ‘${clause(name)}’, which ${state === 'ordered' ? orderedWords(telling, expected) : PART_STATES[state]}.`
}

function orderedWords(telling: Telling, expected: string | null): string {
  if (expected === null) return 'is ordered'
  const day = dateWords(telling, expected)
  return isOver(telling, expected)
    ? `was expected on ${day} and has not come`
    : `is ordered and expected on ${day}`
}

/** Before the day that the report speaks of. */
const isOver = ({ at, context }: Telling, date: string): boolean =>
  date < localDateOf(at, context.workshop.zone)

const PART_STATES = {
  needed: 'is not ordered yet',
  received: 'is here and must be looked at first',
  rejected: 'was not good enough and must be had anew',
  checked: 'is here',
  fitted: 'is fitted',
} as const

function taskReason({ car }: Telling, subject: string, words: string): string {
  const task = [...car.tasks.values()].find(({ id }) => id === subject)
  return task === undefined
    ? ended(clause(words, 'small'))
    : `‘${clause(task.plan.name)}’ must be done first.`
}

function awayReason(telling: Telling): string {
  const away = [...telling.car.aways.values()].findLast(({ returned }) => returned === null)
  return away === undefined ? 'it is away.' : `it is away${backWords(telling, away.expected)}.`
}

/** ' and expected back on Fri 4 Dec', or that it has not come on that day. */
export function backWords(telling: Telling, expected: string): string {
  const day = dateWords(telling, expected)
  return isOver(telling, expected)
    ? `; it was expected back on ${day} and has not come`
    : ` and expected back on ${day}`
}

function listBlocks(intro: string, items: readonly string[]): readonly ReportBlock[] {
  if (items.length === 0) return []
  return [
    { kind: 'text', text: intro },
    { kind: 'list', items: atMost(items, MOST_ITEMS).map((item) => ended(capital(item))) },
  ]
}
