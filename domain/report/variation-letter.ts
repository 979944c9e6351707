import type { CarState, Moment, VariationState } from '../car.ts'
import { loadBearingHere } from '../rules/cautions.ts'
import { dayWords } from '../text/words.ts'
import { localDateOf } from '../time/zone.ts'
import { findingView, variationView } from '../views/variation-view.ts'
import { createViewContext, type ViewInput } from '../views/view-context.ts'
import { inSentence } from '../views/work-words.ts'
import type { ReportBlock, ReportSection } from './owner-week-shapes.ts'
import { textBlock, textBlocks } from './report-blocks.ts'
import { clause, paragraphs, sentence } from './sentences.ts'
import type { LetterTelling } from './variation-telling.ts'
import { decidedLetterSection } from './variation-answer.ts'
import { figureBlocks } from './variation-figures.ts'
import { MOST_LETTER_PHOTOS, reportPhoto } from './week-photos.ts'
import { english } from '../language/english.ts'
import { variationHours } from './hours-words.ts'

/** A variation as a letter to its payer, in reading order and without any layout. No technician is named in it. */
export interface VariationLetter {
  readonly workshop: string
  /** 'Inner channel' */
  readonly title: string
  /** 'Dunmere Saloon, shell 0412' */
  readonly car: string
  /** The car, and the day of the question. */
  readonly subtitle: string
  /** 'Sat 28 Nov 2026', the day it is printed. */
  readonly written: string
  /** Empty for the workshop's own record. */
  readonly greeting: string
  readonly opening: string
  readonly sections: readonly ReportSection[]
  /** What the payer ticks and signs; null once it is answered. */
  readonly reply: VariationReply | null
  readonly cautions: readonly string[]
}

export interface VariationReply {
  readonly heading: string
  readonly texts: readonly string[]
  readonly choices: readonly string[]
  /** What is written by hand below them. */
  readonly fields: readonly string[]
}

export interface VariationLetterInput extends ViewInput {
  readonly car: CarState
  readonly variation: VariationState
}

export function variationLetter({ car, variation, ...input }: VariationLetterInput): VariationLetter {
  const context = createViewContext(input)
  const view = variationView(car, variation, context)
  const dayOf = (moment: Moment) => dayWords(localDateOf(moment, context.workshop.zone), context.year)
  const telling = { car, variation, view, context, dayOf }
  const isOpen = view.status === 'raised'
  const named = `${car.name}, shell ${car.shellNumber}`
  return {
    workshop: context.workshop.name,
    title: sentence(view.title).replace(/\.$/, ''),
    car: named,
    subtitle: `${named}. Asked on ${dayOf(view.raised)}`,
    written: dayWords(context.today, 0),
    greeting: greetingOf(telling),
    opening: openingOf(telling),
    sections: [
      foundSection(telling),
      needsSection(telling),
      ifNotSection(telling),
      ...(isOpen ? [] : [decidedLetterSection(telling)]),
    ].filter((section) => section !== null),
    reply: isOpen ? replyOf(telling) : null,
    cautions: cautionsOf(telling),
  }
}

function greetingOf({ car, variation, view, context }: LetterTelling): string {
  const visit = car.visits.get(variation.visitId)
  switch (view.payer) {
    case 'owner':
      return visit === undefined ? '' : `Dear ${context.nameOf(visit.ownerId)},`
    case 'insurer':
      return visit?.insurerId ? `To ${context.nameOf(visit.insurerId)}:` : 'To the insurer:'
    case 'workshop':
      return ''
  }
}

function openingOf({ car, view }: LetterTelling): string {
  const way = view.asked.likely < 0 ? 'less work than was agreed' : 'work that goes beyond what was agreed'
  const whose = view.payer === 'owner' ? `your ${car.name}` : `the ${car.name}`
  if (view.payer === 'workshop') return `This is ${way} on ${whose}, at our own cost.`
  return view.status === 'raised'
    ? `We ask you to decide about ${way} on ${whose}. Nothing of it is begun before you have answered.`
    : `This is about ${way} on ${whose}, and about how it was decided.`
}

/** The photos stand before the words. */
function foundSection({ car, variation, view, context }: LetterTelling): ReportSection {
  const photos = variation.attachments.slice(0, MOST_LETTER_PHOTOS).flatMap((id) => {
    const attachment = car.attachments.get(id)
    return attachment === undefined ? [] : [reportPhoto({ car, context, say: english }, attachment)]
  })
  const untold = variation.findings.flatMap((id) => {
    const finding = car.findings.get(id)
    if (finding === undefined || view.why.includes(clause(finding.extent))) return []
    const { layer, kind, extent, needs } = findingView(car, finding, context)
    return [sentence(`${layer ?? 'the repair'}: ${kind}, ${clause(extent)}. What it needs: ${clause(needs)}`)]
  })
  const plates: readonly ReportBlock[] =
    photos.length === 0
      ? []
      : [{ kind: 'plates', plates: photos.map((photo) => ({ kind: 'single', photo })) }]
  return {
    heading: 'What we found',
    blocks: [
      ...plates,
      ...textBlocks(paragraphs(view.why).map(sentence)),
      ...(untold.length === 0 ? [] : [{ kind: 'list' as const, items: untold }]),
    ],
  }
}

function needsSection(telling: LetterTelling): ReportSection {
  return {
    heading: telling.view.asked.likely < 0 ? 'What it saves' : 'What it takes',
    blocks: [textBlock(variationHours(telling.view.asked)), ...figureBlocks(telling)],
  }
}

function ifNotSection({ view }: LetterTelling): ReportSection | null {
  const blocks = textBlocks(paragraphs(view.ifNot).map(sentence))
  return blocks.length === 0 ? null : { heading: 'What happens if it is not done', blocks }
}

function replyOf({ view, context }: LetterTelling): VariationReply {
  const by = view.expected === null ? '' : ` by ${dayWords(view.expected, context.year)}`
  const less = view.asked.likely < 0
  return {
    heading: 'What we need from you',
    texts: [
      `Please tell us${by} what we may do. Tick one line, sign it and send it back; a call, a visit or a message counts as well, and we write down what you said.`,
    ],
    choices: [
      less ? 'Yes, leave it out as described.' : 'Yes, do it as described.',
      'Yes, but with these changes:',
      less ? 'No, do what was agreed.' : 'No, do not do it.',
    ],
    fields: ['Day', 'Name', 'Signature'],
  }
}

function cautionsOf({ car, variation, view, context }: LetterTelling): readonly string[] {
  const ids = new Set(view.lines.map(({ repairId }) => repairId))
  const bearing = [...car.repairs.values()].filter(({ id, plan }) => ids.has(id) && plan.loadBearing)
  const namesMoney = variation.askedCosts.length > 0 || context.workshop.rates.length > 0
  const names = bearing.map(({ plan }) => inSentence(plan.name))
  return [
    ...(bearing.length === 0 ? [] : [loadBearingHere(names)]),
    `This letter informs: it says what we found and what we would do about it. It certifies nothing. ${namesMoney ? 'Amounts are without tax.' : ''}`.trim(),
  ]
}
