import { likelyFigures } from '../text/likely-words.ts'
import { hours, rounded } from '../text/words.ts'
import type { HoursBand } from '../views/hours-sheet-shapes.ts'
import type { Telling } from './telling.ts'

/** What the visit may come to as a whole, and what that means for who pays; empty where nothing is left to guess. */
export function likelyHoursTexts(
  telling: Telling,
  agreed: { readonly authorised: number; readonly waiting: number },
): readonly string[] {
  const band = telling.expected?.hours ?? null
  if (band === null) return []
  const { charge } = telling.visit
  return [
    `${bandText(band.all)}${agreed.waiting > 0 ? ' That counts what waits for an answer too.' : ''}`,
    charge.by === 'capped'
      ? cappedText(band.charged, charge.capHours)
      : agreedText(band.all, agreed.authorised + agreed.waiting, agreed.waiting > 0),
  ].filter((text) => text !== '')
}

function bandText(band: HoursBand): string {
  const [low, high] = likelyFigures(band)
  return low === high
    ? `We expect the whole visit to come to about ${high} h.`
    : `We expect the whole visit to come to about ${low} h, and in four cases of five to no more than ${high} h.`
}

function agreedText(band: HoursBand, agreed: number, isAsked: boolean): string {
  const what = isAsked ? 'what is agreed and what we have asked for' : 'what is agreed'
  const more = 'You pay for nothing beyond that unless you have agreed to it first.'
  const [low, high] = likelyBeside(band, agreed)
  if (high === 'within') return `That is within ${what}.`
  return low === 'within'
    ? `It is likely to stay within ${what}, but it may not. ${more}`
    : `That is about ${moreSaid(band, agreed)} more than ${what}. ${more}`
}

function cappedText(band: HoursBand | null, cap: number): string {
  if (band === null) return ''
  const [low, high] = likelyBeside(band, cap)
  const ours = 'The hours above the cap are ours, and you do not pay for them.'
  if (high === 'within') return 'That is within the cap.'
  return low === 'within'
    ? `It is likely to stay within the cap of ${hours(cap)}, but it may not. ${ours}`
    : `That is about ${moreSaid(band, cap)} above the cap of ${hours(cap)}. ${ours}`
}

type Beside = 'within' | 'beyond'

/** As the figures are said: what rounds to the limit is within it. */
function likelyBeside({ p50, p80 }: HoursBand, limit: number): readonly [low: Beside, high: Beside] {
  const beside = (value: number): Beside => (rounded(value - limit, 0) > 0 ? 'beyond' : 'within')
  return [beside(p50), beside(p80)]
}

/** As exact as the band is said. */
const moreSaid = ({ p50, p80 }: HoursBand, limit: number): string =>
  `${likelyFigures({ p50: p50 - limit, p80 })[0]} h`
