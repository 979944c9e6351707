import type { Grade } from '../facts/shapes.ts'
import { capital, fixed, plural } from '../text/words.ts'
import type { GradeMultiple } from './grade-multiples.ts'
import { type HiddenGrades, hiddenGradeWords } from './hidden-grades.ts'
import { type LearnedRatios, priorRatios } from './learned-ratios.ts'

export interface BandStory {
  readonly repair: {
    readonly what: string
    readonly outside: Grade | null
    readonly worstHidden: Grade | null
    readonly taken: { readonly repairs: number } | null
  }
  /** Null where nothing is hidden, or what is hidden is known. */
  readonly worst: HiddenGrades | null
  /** Of the grade that was found; null before. */
  readonly known: GradeMultiple | null
  readonly pricedAgain: boolean
  readonly ratios: LearnedRatios
  readonly spent: number
}

/** What a band of hours rests on, in sentences. */
export function bandWords(story: BandStory): readonly string[] {
  return [...takenWords(story), ...hiddenWords(story), methodWords(story.ratios), ...spentWords(story)]
}

const takenWords = ({ repair: { taken } }: BandStory): readonly string[] =>
  taken === null
    ? []
    : [
        `Its hours were taken from ${plural('finished repair', taken.repairs)}: what those ran over by is in them and is not added again.`,
      ]

function hiddenWords({ repair, worst, known, pricedAgain }: BandStory): readonly string[] {
  if (worst !== null) {
    const likely = worst.grades.reduce((best, each) =>
      each.likelihood.mean > best.likelihood.mean ? each : best,
    )
    const counts = hiddenGradeWords(worst, likely.grade, {
      what: repair.what,
      seen: 'from outside',
      hidden: 'inside',
    })
    return worst.outside === null
      ? [counts, 'Nobody has graded it from outside yet; with the grade the band is narrower.']
      : [counts]
  }
  if (known === null || repair.worstHidden === null) return []
  if (pricedAgain) return [`It was priced again once it was found ${repair.worstHidden} inside.`]
  const from =
    known.repairs === 0 ? 'the usual belief' : `learned from ${plural('finished repair', known.repairs)}`
  return [
    `${capital(repair.worstHidden)} inside takes ${times(known.multiple)} the first estimate (${from}).`,
  ]
}

function methodWords(ratios: LearnedRatios): string {
  const { own, others } = ratios.rests
  if (ratios.method === 'order statistic') {
    const seen =
      ratios.seen80 === null
        ? ''
        : `: four of five stayed at or under ${times(Math.exp(ratios.seen80))} what was expected`
    const recent = ratios.order.recentShare > 0.5 ? ' The recent ones count most.' : ''
    return `Read from ${plural('finished repair', own)} of this type in order of size (order statistic)${seen}.${recent}`
  }
  const from = others > 0 ? `${plural('finished repair', others)} of other types` : 'the usual prior'
  const prior = priorRatios(ratios)
  const stated = `half at or under ${times(prior.p50)} what was expected, four of five at or under ${times(prior.p80)}`
  if (ratios.method === 'normal-inverse-gamma')
    return `Learned from ${plural('finished repair', own)} of this type (normal-inverse-gamma), starting from ${from}: ${stated}.`
  return own === 0
    ? `No repair of this type is finished yet; it rests on ${from}: ${stated}.`
    : `Only ${plural('repair', own)} of this type ${own === 1 ? 'is' : 'are'} finished; it rests mostly on ${from}: ${stated}.`
}

const spentWords = ({ spent }: BandStory): readonly string[] =>
  spent > 0 ? [`${hoursWords(spent)} spent so far; the figures are for the whole repair.`] : []

const times = (ratio: number): string => `${fixed(ratio, 2)} times`

const hoursWords = (hours: number): string => `${fixed(hours, 1)} ${hours === 1 ? 'hour is' : 'hours are'}`
