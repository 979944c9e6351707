import { capital } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import { mayBeWorkedOn } from '../views/hold-view.ts'
import { isRootHold } from '../views/car-line.ts'
import type { HoldView } from '../views/shared-views.ts'
import { type WorkItem, workItems } from '../views/work-items.ts'
import type { Back, HeldBy, WaitedPart } from '../language/owner-language.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { textBlock } from './report-blocks.ts'
import { atMost, ended } from './sentences.ts'
import { dateWords, dayOf, type Telling } from './telling.ts'

const MOST_ITEMS = 6

/** What may be worked on now, and what waits for whom; empty once the work is over or paused. */
export function nextSection(telling: Telling): ReportSection | null {
  const { next } = telling.say
  const free = nextItems(telling).filter((item) => item.mayBeWorkedOn)
  const aims = free.map((item) => aimText(telling, item))
  const waiting = waits(telling).map(({ name, reason }) => next.waits(name, reason))
  const blocks: readonly ReportBlock[] = [
    ...listBlocks(telling, next.canGoOn, aims),
    ...listBlocks(telling, next.thisWaits, waiting),
  ]
  return blocks.length === 0 ? null : { heading: next.heading, blocks }
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
    const name = hold.code === 'away' ? telling.say.next.allWork : item.name
    return [{ name, reason: reasonFor(telling, hold) }]
  })
}

export interface Wait {
  readonly name: string
  /** With its full stop; begins small. */
  readonly reason: string
}

function aimText({ say }: Telling, { name, work }: WorkItem): string {
  return work.kind === 'gate' ? say.next.aim(name, work.gate) : `${name}.`
}

/** The hold as the owner should read it: what the workshop's people would do about it is left out. */
function reasonFor(telling: Telling, hold: HoldView): string {
  const { next } = telling.say
  const { code, subject, clearedBy, until } = hold
  switch (code) {
    case "owner's decision":
      return agreementReason(telling, subject, clearedBy)
    case 'declined':
      return next.declined
    case 'support':
      return next.support
    case 'away':
      return awayReason(telling)
    case 'window':
      return next.window
    case 'evidence':
      return clearedBy === 'the manager' ? next.review : next.held(heldBy(telling, hold))
    case 'parts':
      return next.part(waitedPart(telling, subject))
    case 'task':
      return taskReason(telling, hold)
    case 'curing':
      return until === null ? next.held(heldBy(telling, hold)) : next.curing(dayOf(telling, until))
    case 'skill':
      return next.skill
    default:
      return next.held(heldBy(telling, hold))
  }
}

function heldBy(telling: Telling, { code, subject, words, otherRepair }: HoldView): HeldBy {
  const { car } = telling
  const own = [...car.holds.values()].find(({ id }) => id === subject)
  return {
    code,
    words,
    other: (otherRepair && car.repairs.get(otherRepair)?.plan.name) ?? null,
    byHand: own
      ? { words: own.words, day: own.expected === null ? null : dateWords(telling, own.expected) }
      : null,
  }
}

function agreementReason({ car, say }: Telling, subject: string, clearedBy: string): string {
  const variation = [...car.variations.values()].find(({ id }) => id === subject)
  const payer =
    variation?.payer ?? (clearedBy === 'the insurer' ? 'insurer' : clearedBy === 'the owner' ? 'owner' : null)
  if (payer === null) return say.next.notEstimated
  return payer === 'workshop' ? say.next.ourDecision : say.next.answer(payer, variation?.title ?? null)
}

function waitedPart(telling: Telling, subject: string): WaitedPart | null {
  const part = [...telling.car.parts.values()].find(({ id }) => id === subject)
  if (part === undefined) return null
  const { name, state, expected } = part
  return { name, state, expected: expected === null ? null : backOf(telling, expected) }
}

/** A day on which something is expected, and whether it lies before the day that the report speaks of. */
export function backOf(telling: Telling, date: string): Back {
  const isOver = date < localDateOf(telling.at, telling.context.workshop.zone)
  return { day: dateWords(telling, date), isOver }
}

function taskReason(telling: Telling, hold: HoldView): string {
  const { next } = telling.say
  const task = [...telling.car.tasks.values()].find(({ id }) => id === hold.subject)
  return task === undefined ? next.held(heldBy(telling, hold)) : next.task(task.plan.name)
}

function awayReason(telling: Telling): string {
  const away = [...telling.car.aways.values()].findLast(({ returned }) => returned === null)
  return telling.say.next.away(away === undefined ? null : backOf(telling, away.expected))
}

function listBlocks({ say }: Telling, intro: string, items: readonly string[]): readonly ReportBlock[] {
  if (items.length === 0) return []
  return [
    textBlock(intro),
    {
      kind: 'list',
      items: atMost(items, MOST_ITEMS, say.figures.andMore).map((item) => ended(capital(item))),
    },
  ]
}
