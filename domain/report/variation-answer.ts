import { moneyWords } from '../text/money-words.ts'
import { hours } from '../text/words.ts'
import type { FigureRow, ReportSection } from './owner-week-shapes.ts'
import { hoursSaid } from './hours-words.ts'
import { tradeWords } from '../language/english.ts'
import { textBlocks } from './report-blocks.ts'
import { clause, sentence } from './sentences.ts'
import type { LetterTelling } from './variation-telling.ts'

/** The answer, how it came, and what was chosen for work that was declined: it stays on record as the payer's decision. */
export function decidedLetterSection(telling: LetterTelling): ReportSection {
  const { view } = telling
  const texts = [
    answerText(telling),
    view.decidedNote === '' ? '' : `What was said: ${sentence(view.decidedNote)}`,
    settledText(telling),
  ]
  const changed = view.changed ? changedRows(telling) : []
  return {
    heading: 'What was decided',
    blocks: [
      ...textBlocks(texts),
      ...(changed.length === 0
        ? []
        : [{ kind: 'figures' as const, head: ['', 'asked', 'accepted'], rows: changed }]),
    ],
  }
}

function answerText({ view, dayOf }: LetterTelling): string {
  const { payer, decided, decidedHow, changed, asked } = view
  if (payer === 'workshop' || decided === null) return 'Our workshop pays for it.'
  const who = payer === 'owner' ? 'You' : 'The insurer'
  const when = `on ${dayOf(decided)}, ${HOW_SAID[decidedHow] ?? `by ${decidedHow}`}`
  if (view.status !== 'accepted')
    return `${who} declined it ${when}. This stays on record as ${payer === 'owner' ? 'your' : "the insurer's"} decision.`
  return changed
    ? `${who} accepted it with changes ${when}: ${hoursSaid(Math.abs(view.hours))} instead of ${hoursSaid(Math.abs(asked.likely))}.`
    : `${who} accepted it as it was asked ${when}.`
}

const HOW_SAID: Readonly<Record<string, string>> = { call: 'on the phone', visit: 'on a visit' }

function settledText({ view }: LetterTelling): string {
  const reason = clause(view.settledReason)
  if (view.closedAsFound) return 'It was closed as found: the damage is still there.'
  switch (view.status) {
    case 'workshop pays':
      return `We do it at our own cost: ${reason}.`
    case 'less work':
      return `Less is done instead: ${reason}.`
    case 'stopped':
      return `The work on it has stopped: ${reason}.`
    default:
      return ''
  }
}

function changedRows({ view, context }: LetterTelling): readonly FigureRow[] {
  const money = (amount: number) => moneyWords(amount, context.workshop.currency)
  return [
    ...view.lines.map(({ target, what, asked, hours: accepted }) => ({
      label: target.kind === 'gate' ? tradeWords.gateWorks[target.gate] : what,
      figures: [hours(asked.likely), hours(accepted)],
      isTotal: false,
    })),
    ...(view.costs ?? []).map(({ name, asked, amount }) => ({
      label: name,
      figures: [money(asked), money(amount)],
      isTotal: false,
    })),
  ]
}
