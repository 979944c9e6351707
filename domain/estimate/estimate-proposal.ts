import type { Grade, ThreePoint } from '../facts/shapes.ts'
import { eachGate, GATES, type Gate } from '../gates.ts'
import type { TypeId } from '../ids.ts'
import { plural } from '../text/words.ts'
import { expectedHours } from '../value/estimated-hours.ts'
import type { FinishedRepair } from './finished-repair.ts'
import { OWN_JOBS_FROM } from './learned-ratios.ts'
import { learnLogRatios, meanOf, nextRatio, squaresAround, USUAL_PRIOR } from './log-ratios.ts'
import type { TakenHours } from './repair-band.ts'

/** Hours for a new repair of a type, for the workshop to take or leave. */
export interface EstimateProposal {
  /** Person-hours; null for a gate that most of the finished ones spent no hours on. */
  readonly gates: Readonly<Record<Gate, ThreePoint | null>>
  readonly rests: {
    readonly repairs: number
    /** Those that looked the same from outside; null when all of the type are counted. */
    readonly outside: Grade | null
  }
  /** What is said of a repair that takes them. */
  readonly taken: TakenHours
  /** What it rests on, as a sentence. */
  readonly words: string
}

/**
 * What the gates of finished repairs of the type really took, rework and hidden metal among it: those that looked the same
 * from outside where there are enough of them, else all. Most likely is the geometric mean; one in ten takes less than the
 * shortest and one in ten more than the longest, by a normal-inverse-gamma belief on the logarithms. Null when none is
 * finished, or the repair has no type.
 *
 * @param finished in finish order; of more than MOST_REPAIRS of the type the last ones count
 */
export function proposeEstimate(
  finished: readonly FinishedRepair[],
  typeId: TypeId | null,
  outside: Grade | null,
): EstimateProposal | null {
  const ofType = typeId === null ? [] : finished.filter((repair) => repair.typeId === typeId)
  const alike = outside === null ? [] : ofType.filter((repair) => repair.outside === outside)
  const isByGrade = alike.length >= OWN_JOBS_FROM
  const own = (isByGrade ? alike : ofType).slice(-MOST_REPAIRS)
  if (own.length === 0) return null
  const rests = { repairs: own.length, outside: isByGrade ? outside : null }
  const gates = eachGate((gate) => pointsOf(own.map((repair) => repair.gates[gate].actual)))
  return { gates, rests, taken: takenOf(own, gates), words: wordsOf(rests) }
}

/** What the proposed hours are of what people had estimated for these repairs, in the geometric mean, and how far that lay apart. */
function takenOf(finished: readonly FinishedRepair[], gates: EstimateProposal['gates']): TakenHours {
  const repairs = finished.length
  const estimated = finished.filter(({ taken }) => !taken)
  if (estimated.length === 0) return { repairs, over: 1, deviation: USUAL_DEVIATION }
  const proposed = GATES.flatMap((gate) => gates[gate] ?? [])
  const sizes = estimated.map((repair) => Math.log(beforeOf(repair, gates)))
  const deviation = Math.sqrt(squaresAround(sizes, meanOf(sizes)) / Math.max(1, sizes.length - 1))
  const expected = proposed.reduce((sum, points) => sum + expectedHours(points), 0)
  return { repairs, over: expected / Math.exp(meanOf(sizes)), deviation }
}

/** Of the gates that hours are proposed for. */
const beforeOf = ({ gates: hours, before }: FinishedRepair, gates: EstimateProposal['gates']): number =>
  GATES.reduce((sum, gate) => sum + (gates[gate] === null ? 0 : hours[gate].before), 0) || before

/** As far apart as jobs lie around their estimates. */
const USUAL_DEVIATION = Math.sqrt(USUAL_PRIOR.scale)

/** Older ones were done by other people with other tools. */
const MOST_REPAIRS = 40
const SHORTEST = 0.1
const LONGEST = 0.9

function pointsOf(hours: readonly number[]): ThreePoint | null {
  const logs = hours.filter((each) => each > 0 && Number.isFinite(each)).map(Math.log)
  if (logs.length === 0 || 2 * logs.length < hours.length) return null
  const middle = meanOf(logs)
  const belief = learnLogRatios(
    USUAL_PRIOR,
    logs.map((log) => log - middle),
  )
  const likely = quarterHours(Math.exp(middle))
  return {
    shortest: Math.min(likely, quarterHours(Math.exp(middle) * nextRatio(belief, SHORTEST))),
    likely,
    longest: Math.max(likely, quarterHours(Math.exp(middle) * nextRatio(belief, LONGEST))),
  }
}

/** Nobody estimates finer; never 0. */
const quarterHours = (hours: number): number => Math.max(0.25, Math.round(4 * hours) / 4)

function wordsOf({ repairs, outside }: EstimateProposal['rests']): string {
  const which = outside === null ? '' : ` that looked ${outside} from outside`
  const few = repairs < OWN_JOBS_FROM ? ' With so few, its spread is mostly the usual one.' : ''
  return `From the hours that ${plural('finished repair', repairs)} of this type${which} really took, hidden metal and rework among them.${few}`
}
