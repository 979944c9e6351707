import { likelyFigures, type LikelyHours } from '../text/likely-words.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import { rounded } from '../text/words.ts'
import type { HoursBand } from '../views/hours-sheet-shapes.ts'
import type { Telling } from './telling.ts'

/** What the visit may come to as a whole, and what that means for who pays; empty where nothing is left to guess. */
export function likelyHoursTexts(
  telling: Telling,
  agreed: { readonly authorised: number; readonly waiting: number },
): readonly string[] {
  const band = telling.expected?.hours ?? null
  if (band === null) return []
  const { say, visit } = telling
  const { charge } = visit
  return [
    [
      say.hours.whole(...figuresOf(say, band.all)),
      ...(agreed.waiting > 0 ? [say.hours.countsWaiting] : []),
    ].join(' '),
    charge.by === 'capped'
      ? cappedText(say, band.charged, charge.capHours)
      : agreedText(say, band.all, agreed.authorised + agreed.waiting, agreed.waiting > 0),
  ].filter((text) => text !== '')
}

const figuresOf = ({ figures }: OwnerLanguage, band: LikelyHours): readonly [low: string, high: string] =>
  likelyFigures(band, figures.number)

function agreedText(say: OwnerLanguage, band: HoursBand, agreed: number, isAsked: boolean): string {
  const [low, high] = likelyBeside(band, agreed)
  if (high === 'within') return say.hours.within(isAsked)
  return low === 'within'
    ? say.hours.mayExceed(isAsked)
    : say.hours.exceeds(moreSaid(say, band, agreed), isAsked)
}

function cappedText(say: OwnerLanguage, band: HoursBand | null, cap: number): string {
  if (band === null) return ''
  const [low, high] = likelyBeside(band, cap)
  if (high === 'within') return say.hours.withinCap
  const capHours = say.figures.hours(cap)
  return low === 'within'
    ? say.hours.mayExceedCap(capHours)
    : say.hours.exceedsCap(moreSaid(say, band, cap), capHours)
}

type Beside = 'within' | 'beyond'

/** As the figures are said: what rounds to the limit is within it. */
function likelyBeside({ p50, p80 }: HoursBand, limit: number): readonly [low: Beside, high: Beside] {
  const beside = (value: number): Beside => (rounded(value - limit, 0) > 0 ? 'beyond' : 'within')
  return [beside(p50), beside(p80)]
}

/** As exact as the band is said. */
const moreSaid = (say: OwnerLanguage, { p50, p80 }: HoursBand, limit: number): string =>
  figuresOf(say, { p50: p50 - limit, p80 })[0]
