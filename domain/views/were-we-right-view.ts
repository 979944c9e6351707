import { type Accuracy, accuracyByGroup, accuracyOf, type ForecastJob } from '../estimate/accuracy.ts'
import type { JudgedRepair } from '../estimate/judged-repair.ts'
import { type BandMethod, ORDER_STATISTIC_FROM, OWN_JOBS_FROM } from '../estimate/learned-ratios.ts'
import type { BandsWhen, StatedBand } from '../facts/agreement-facts.ts'
import type { PersonId } from '../ids.ts'
import type { WorkshopState } from '../workshop.ts'
import { mayShowPeople, mayShowPerson } from './person-figures.ts'
import type { NameOf } from './shared-views.ts'
import { keyName } from './variance-lines.ts'
import {
  type AccuracyLine,
  type JudgedDot,
  MOST_DOTS,
  type TypeAccuracyLine,
  type Verdict,
  type WereWeRightView,
  type WithinView,
} from './were-we-right-shapes.ts'
import { biasWords, fewWords, methodWords, USEFUL_FROM, withinWords } from './were-we-right-words.ts'

export interface WereWeRightInput {
  /** In the order of finishing. */
  readonly finished: readonly JudgedRepair[]
  readonly when: BandsWhen
  /** Null for all. */
  readonly last: number | null
  readonly workshop: WorkshopState
  readonly nameOf: NameOf
  /** Who is signed in on the device. */
  readonly by: PersonId | null
  /** What a repair is called, with its car. */
  readonly repairName: (repair: JudgedRepair) => string
}

/**
 * Were we right: how often the real hours of the last finished repairs stayed at or under the 50 and 80 % figures that were
 * said of them at the time, over all, by type and by estimator, and how far estimates were off in the mean.
 */
export function wereWeRightView(input: WereWeRightInput): WereWeRightView {
  const { finished, when, last } = input
  const said = finished.flatMap((repair): Said[] => {
    const band = repair.stated[when]
    return band === null ? [] : [{ repair, band }]
  })
  const judged = last === null ? said : said.slice(-last)
  return {
    when,
    last,
    stated: said.length,
    unstated: finished.length - said.length,
    few: fewWords(said.length),
    all: toLine('all', 'All finished repairs', accuracyOf(judged.map((each) => toJob(each, 'all')))),
    byType: typeLines(said, input),
    byEstimator: estimatorLines(said, input),
    dots: judged.slice(-MOST_DOTS).map((each) => toDot(each, input)),
  }
}

interface Said {
  readonly repair: JudgedRepair
  readonly band: StatedBand
}

function toJob({ repair, band }: Said, group: string): ForecastJob {
  const { estimated, p50, p80 } = band
  return { group, estimated, p50, p80, actual: repair.actual }
}

function toDot({ repair, band }: Said, { repairName }: WereWeRightInput): JudgedDot {
  const { estimated, p50, p80 } = band
  const { carId, repairId, actual, finished } = repair
  const name = repairName(repair)
  return { carId, repairId, name, finishedAt: finished.at, estimated, actual, p50, p80 }
}

const NO_TYPE = 'no type'

/** Of every type that has a finished repair. */
function typeLines(
  said: readonly Said[],
  { finished, last, workshop, nameOf }: WereWeRightInput,
): readonly TypeAccuracyLine[] {
  const typeOf = ({ typeId }: JudgedRepair): string => typeId ?? NO_TYPE
  const { groups } = accuracyByGroup(
    said.map((each) => toJob(each, typeOf(each.repair))),
    last ?? said.length,
  )
  const lines = [...Map.groupBy(finished, typeOf)].map(([key, { length }]) => {
    const method = methodFor(key === NO_TYPE ? 0 : length)
    const line = toLine(
      key,
      keyName('type', key, { workshop, nameOf, visits: [] }),
      groups.get(key) ?? accuracyOf([]),
    )
    return { ...line, method, finished: length, methodWords: methodWords(method, length) }
  })
  return lines.toSorted((a, b) => b.jobs - a.jobs || b.finished - a.finished)
}

function methodFor(own: number): BandMethod {
  if (own >= ORDER_STATISTIC_FROM) return 'order statistic'
  return own >= OWN_JOBS_FROM ? 'normal-inverse-gamma' : 'prior'
}

function estimatorLines(
  said: readonly Said[],
  { last, workshop, by, nameOf }: WereWeRightInput,
): readonly AccuracyLine[] | null {
  if (!mayShowPeople(workshop, by)) return null
  const shown = said.flatMap((each) => {
    const { estimator } = each.repair
    return estimator !== null && mayShowPerson(workshop, by, estimator) ? [toJob(each, estimator)] : []
  })
  const { groups } = accuracyByGroup(shown, last ?? shown.length)
  return [...groups]
    .map(([key, accuracy]) => toLine(key, nameOf(key as PersonId), accuracy))
    .toSorted((a, b) => b.jobs - a.jobs)
}

function toLine(key: string, name: string, { jobs, within50, within80, bias }: Accuracy): AccuracyLine {
  return {
    key,
    name,
    jobs,
    within50: within50 && withinView(50, within50, jobs),
    within80: within80 && withinView(80, within80, jobs),
    bias: bias && { ...bias, words: biasWords(bias, jobs) },
  }
}

function withinView(
  percent: number,
  { count, share }: NonNullable<Accuracy['within80']>,
  jobs: number,
): WithinView {
  const judged = { percent, count, jobs, share, verdict: verdictOf(percent / 100, share, jobs) }
  return { ...judged, words: withinWords(judged) }
}

/** A share that its jobs leave possible is as it should be, once there are enough to rule others out. */
function verdictOf(target: number, { low, high }: WithinView['share'], jobs: number): Verdict {
  if (high < target) return 'too low'
  if (low > target) return 'too high'
  return jobs < USEFUL_FROM ? 'too few' : 'as it should'
}
