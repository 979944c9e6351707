import type { AttachmentState, VisitState } from '../car.ts'
import { ratesInForce } from '../money/rates.ts'
import { loadBearingHere } from '../rules/cautions.ts'
import { moneyWords } from '../text/money-words.ts'
import { dayWords, hours, plural } from '../text/words.ts'
import { currentVisit } from '../views/car-header.ts'
import type { EstimateRepairView } from '../views/estimate-shapes.ts'
import { type EstimateInput, estimateView } from '../views/estimate-view.ts'
import { photosByRepair } from '../views/photo-view.ts'
import { createViewContext, type ViewContext } from '../views/view-context.ts'
import { inSentence } from '../views/work-words.ts'
import { expectText, hoursPlain, toldRepair, type ToldRepair } from './estimate-repair-told.ts'
import { sumSection } from './estimate-sum.ts'
import { type EstimateTelling, section } from './estimate-telling.ts'
import type { PhotoPlate, ReportSection } from './owner-week-shapes.ts'
import { textBlock } from './report-blocks.ts'
import { isChargedByHours } from './telling.ts'
import { MOST_LETTER_PHOTOS, reportPhoto } from './week-photos.ts'
import { english } from '../language/english.ts'

/** The estimate as a letter to the owner, in reading order and without any layout. No technician is named in it. */
export interface EstimateLetter {
  readonly workshop: string
  /** 'Dunmere Saloon, shell 0412' */
  readonly title: string
  /** 'Estimate of Sat 28 Nov 2026' */
  readonly subtitle: string
  /** 'Sat 28 Nov 2026' */
  readonly written: string
  readonly greeting: string
  readonly opening: readonly string[]
  /** What was looked at, with its photos. */
  readonly looked: ReportSection
  /** Null when the estimate is of tasks alone. */
  readonly proposed: ProposedRepairs | null
  readonly sections: readonly ReportSection[]
  readonly cautions: readonly string[]
}

export interface ProposedRepairs {
  readonly heading: string
  readonly texts: readonly string[]
  readonly repairs: readonly ToldRepair[]
  /** Hours that the widest of their bands reaches. */
  readonly scale: number
}

/** Null when nothing is estimated on the car's current visit. */
export function estimateLetter(input: EstimateInput): EstimateLetter | null {
  const { car } = input
  const visit = currentVisit(car)
  const estimate = estimateView(input)
  if (visit === null || estimate.repairs.length + estimate.tasks.length === 0) return null
  const telling: EstimateTelling = { car, visit, estimate, context: createViewContext(input) }
  const { context } = telling
  const written = dayWords(context.today, 0)
  return {
    workshop: context.workshop.name,
    title: `${car.name}, shell ${car.shellNumber}`,
    subtitle: `Estimate of ${written}`,
    written,
    greeting: `Dear ${context.nameOf(visit.ownerId)},`,
    opening: openingTexts(telling),
    looked: lookedSection(telling),
    proposed: proposedRepairs(telling),
    sections: [
      tasksSection(telling),
      sumSection(telling),
      movesSection(telling),
      unknownSection(telling),
      moreSection(telling),
      chargeSection(telling),
      needsSection(telling),
    ].filter((section) => section !== null),
    cautions: cautionsOf(telling),
  }
}

function openingTexts({ car, estimate: { repairs, tasks, whole } }: EstimateTelling): readonly string[] {
  const parts = [
    ...(repairs.length === 0 ? [] : [plural('repair', repairs.length)]),
    ...(tasks.length === 0 ? [] : [plural('task', tasks.length)]),
  ]
  const begin = `This is our estimate for your ${car.name}: ${parts.join(' and ')}`
  if (whole.band === null) return [`${begin}. We have not put hours to it yet.`]
  const isUnseen = repairs.some(({ state }) => state === 'before opening')
  return [
    `${begin}, ${hoursPlain(whole.agreed)} in all. ${expectText(whole.band, isUnseen)}`,
    'It is as likely to come out below what we expect as above it. What it may become holds in four of five cases; in the fifth it is more still.',
  ]
}

function lookedSection(telling: EstimateTelling): ReportSection {
  const { repairs } = telling.estimate
  const graded = repairs.filter(({ outside }) => outside !== null).length
  const opened = repairs.filter(({ state }) => state !== 'before opening').length
  const photos = outsidePhotos(telling).map((attachment): PhotoPlate => ({
    kind: 'single',
    photo: reportPhoto({ ...telling, say: english }, attachment),
  }))
  return section('What we looked at', [
    textBlock(lookedText(repairs.length, graded, opened)),
    ...(photos.length === 0 ? [] : [{ kind: 'plates', plates: photos } as const]),
  ])
}

function lookedText(count: number, graded: number, opened: number): string {
  if (count === 0) return 'This estimate is of work on the whole car; no repair of its metal is in it.'
  const seen =
    graded === 0
      ? 'We have not judged any of the repairs from outside yet'
      : graded === count
        ? `We judged ${count === 1 ? 'the repair' : `all ${count} repairs`} from outside, by what can be seen without cutting`
        : `We judged ${graded} of ${count} repairs from outside, by what can be seen without cutting`
  const inside =
    opened === 0
      ? 'None of it is opened: what lies behind we know by likelihood only.'
      : opened === count
        ? 'All of it is opened by now.'
        : `${opened === 1 ? 'One is' : `${opened} are`} opened by now; what lies behind the others we know by likelihood only.`
  return `${seen}. ${inside}`
}

/** The car as a whole, then each repair as it was before it was cut. */
function outsidePhotos({ car, estimate }: EstimateTelling): readonly AttachmentState[] {
  const whole = [...car.attachments.values()].filter(({ serves }) =>
    serves.some(({ what }) => what === 'car'),
  )
  const before = estimate.repairs.flatMap(({ id }) => {
    const photos = photosByRepair(car).get(id) ?? []
    const found = photos.find(({ serves }) =>
      serves.some(
        (each) =>
          each.what === 'gate' && each.repairId === id && each.gate === 'opened' && each.shows === 'before',
      ),
    )
    return found === undefined ? [] : [found]
  })
  const all = [...whole.slice(-1), ...before]
  const first = all.filter(({ sha256 }, index) => all.findIndex((each) => each.sha256 === sha256) === index)
  return first.slice(0, MOST_LETTER_PHOTOS)
}

function proposedRepairs(telling: EstimateTelling): ProposedRepairs | null {
  const { repairs, scale } = telling.estimate
  if (repairs.length === 0) return null
  return {
    heading: 'What we propose',
    texts: [
      'Each repair is opened up, judged layer by layer, put right with new metal where it needs it, sealed, primed, fitted, welded shut and painted.',
    ],
    repairs: repairs.map((repair) => toldRepair(repair, isChargedByHours(telling))),
    scale,
  }
}

function tasksSection({ estimate: { tasks } }: EstimateTelling): ReportSection | null {
  if (tasks.length === 0) return null
  const items = tasks.map(({ name, agreed }) => `${name}, ${hoursPlain(agreed)}`)
  return section('Work on the whole car', [textBlock(`${items.join('; ')}.`)])
}

function movesSection({ estimate: { movers } }: EstimateTelling): ReportSection | null {
  const items = movers.map(({ name, words }) => `${name}; ${words}.`)
  return items.length === 0 ? null : section('What could move it most', [{ kind: 'list', items }])
}

function unknownSection({ estimate: { repairs } }: EstimateTelling): ReportSection | null {
  const unopened = repairs.filter(({ state }) => state === 'before opening')
  const ungraded = unopened.filter(({ outside }) => outside === null)
  if (unopened.length === 0) return null
  return section('What we do not know yet', [
    {
      kind: 'list',
      items: [
        `How the metal looks behind ${namesOf(unopened, repairs.length)}: it shows when it is opened.`,
        ...(ungraded.length === 0
          ? []
          : [
              `How ${namesOf(ungraded, repairs.length)} ${ungraded.length === 1 ? 'looks' : 'look'} from outside: we have still to look there.`,
            ]),
        'Whether more repairs come to light once the first are open.',
      ],
    },
  ])
}

const MOST_NAMES = 4

function namesOf(some: readonly EstimateRepairView[], all: number): string {
  if (some.length === all && all > 1) return 'all of the repairs'
  if (some.length > MOST_NAMES) return `${some.length} of the repairs`
  return some.map(({ name }) => `the ${inSentence(name)}`).join('; ')
}

const moreSection = (telling: EstimateTelling): ReportSection =>
  section('If we find more', [
    textBlock(
      `If an opened repair needs more than you have accepted, we write to you with what we found, photos and the hours it takes${isChargedByHours(telling) ? '' : ', whoever pays for them'}. Nothing of it is done without your answer. What turns out not to be needed is given back.`,
    ),
  ])

function chargeSection({ visit, context }: EstimateTelling): ReportSection {
  return section('How it is charged', [textBlock(chargeText(visit, rateText(context)))])
}

/** ', at £58.00, welding at £62.00'; empty while no rate is set. */
function rateText({ workshop: { rates, currency }, today }: ViewContext): string {
  const table = ratesInForce(rates, today)
  if (table === null) return ''
  const others = table.bySkill.map(({ skill, perHour }) => `, ${skill} at ${moneyWords(perHour, currency)}`)
  return `, at ${moneyWords(table.usual, currency)}${others.join('')}`
}

function chargeText({ kind, charge }: VisitState, rate: string): string {
  if (kind === 'warranty') return 'This is a warranty visit: our workshop pays for its own work.'
  switch (charge.by) {
    case 'hour':
      return `By the hour${rate}: you pay for the hours that we work, within what you have accepted.`
    case 'fixed':
      return 'At a fixed price: you pay for what you have accepted, whatever it takes us.'
    case 'capped':
      return `By the hour${rate}, and for ${hoursPlain(charge.capHours)} at the most: further hours are ours.`
  }
}

function needsSection({ estimate: { payers } }: EstimateTelling): ReportSection | null {
  const waiting = payers.find(({ payer }) => payer === 'owner')?.waiting ?? 0
  if (waiting <= 0) return null
  return section('What we need from you', [
    {
      kind: 'question',
      variationId: null,
      title: 'The estimate',
      texts: [
        `${hoursPlain(waiting)} of it ${waiting === 1 ? 'waits' : 'wait'} for your answer. Please tell us which of it we may do; we do not begin it before. You may also let us open and judge the repairs first, and decide on the rest once we know what is behind.`,
      ],
      hours: hours(waiting),
      plates: [],
    },
  ])
}

function cautionsOf({ estimate: { repairs } }: EstimateTelling): readonly string[] {
  const bearing = repairs.filter(({ loadBearing }) => loadBearing).map(({ name }) => inSentence(name))
  return [
    ...(bearing.length === 0 ? [] : [loadBearingHere(bearing)]),
    'This estimate informs: it says what we expect by what can be seen and by what we have repaired before. It is no promise of a price and certifies nothing.',
  ]
}
