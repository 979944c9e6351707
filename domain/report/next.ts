import { mayBeWorkedOn } from '../views/hold-view.ts'
import { isRootHold } from '../views/car-line.ts'
import type { HoldView } from '../views/shared-views.ts'
import { type WorkItem, workItems } from '../views/work-items.ts'
import { inSentence } from '../views/work-words.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { gateAims } from './plain-words.ts'
import { atMost, clause } from './sentences.ts'
import { dateWords, dayOf, type Telling } from './telling.ts'

const MOST_ITEMS = 6

/** What may be worked on now, and what waits for whom; empty once the work is over or paused. */
export function nextSection(telling: Telling): ReportSection | null {
  const free = nextItems(telling).filter((item) => item.mayBeWorkedOn)
  const waits = waitTexts(telling)
  const blocks: readonly ReportBlock[] = [
    ...listBlocks('We can go on with this:', free.map(aimText)),
    ...listBlocks('This waits:', waits),
  ]
  return blocks.length === 0 ? null : { heading: 'What comes next', blocks }
}

/** Gates and tasks that come next; none while the visit is not in work. */
export function nextItems({ car, visit, context }: Telling): readonly WorkItem[] {
  return visit.status === 'in work' && car.currentVisit === visit.id ? workItems(car, context) : []
}

/** The reasons why nothing can go on, for a week in which nothing was done. */
export function waitTexts(telling: Telling): readonly string[] {
  const said = new Set<string>()
  return nextItems(telling).flatMap((item) => {
    const hold = mayBeWorkedOn(item.holds) ? undefined : item.holds.find(isRootHold)
    const key = hold && `${hold.code}/${hold.subject}`
    if (hold === undefined || key === undefined || said.has(key)) return []
    said.add(key)
    return [waitText(telling, item, hold)]
  })
}

function aimText({ name, work }: WorkItem): string {
  return work.kind === 'gate' ? `${name}: ${gateAims[work.gate]}.` : `${name}.`
}

function waitText(telling: Telling, { name }: WorkItem, hold: HoldView): string {
  return `${name}: ${reasonFor(telling, hold)}`
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
        : `${clause(inSentence(words))}.`
    case 'parts':
      return `it waits for a part: ${clause(inSentence(words))}.`
    case 'curing':
      return until === null ? `${clause(inSentence(words))}.` : `it must cure until ${dayOf(telling, until)}.`
    case 'skill':
      return 'it waits for somebody with the skill it needs.'
    default:
      return `${clause(inSentence(words))}.`
  }
}

function agreementReason({ car }: Telling, subject: string, clearedBy: string): string {
  const variation = [...car.variations.values()].find(({ id }) => id === subject)
  const payer =
    variation?.payer ?? (clearedBy === 'the insurer' ? 'insurer' : clearedBy === 'the owner' ? 'owner' : null)
  if (payer === null) return 'its hours are not agreed yet.'
  const what = variation === undefined ? 'the estimate' : `‘${clause(variation.title)}’`
  return `it waits for ${payer === 'owner' ? 'your' : `the ${payer}'s`} answer on ${what}.`
}

function awayReason(telling: Telling): string {
  const away = [...telling.car.aways.values()].findLast(({ returned }) => returned === null)
  return away === undefined
    ? 'the shell is away.'
    : `the shell is away and expected back on ${dateWords(telling, away.expected)}.`
}

function listBlocks(intro: string, items: readonly string[]): readonly ReportBlock[] {
  if (items.length === 0) return []
  return [
    { kind: 'text', text: intro },
    { kind: 'list', items: atMost(items, MOST_ITEMS) },
  ]
}
