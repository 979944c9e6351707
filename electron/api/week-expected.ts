import type { ReadDatabase } from '../../db/database.ts'
import { readEstimateHistory, readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readFacts } from '../../db/journal.ts'
import { keptFinish } from '../../db/kept-finishes.ts'
import type { Moment } from '../../domain/car.ts'
import type { EstimateHistory } from '../../domain/estimate/estimate-history.ts'
import { pastHistory } from '../../domain/estimate/past-history.ts'
import { expectedHours } from '../../domain/report/expected-hours.ts'
import { tellingCar, type TellingInput } from '../../domain/report/telling.ts'
import { elsewhereChanges, type PlannedFinish, type WeekExpected } from '../../domain/report/week-expected.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { dayEnd } from '../../domain/time/zone.ts'

/**
 * What was known of a visit's hours and finish at the end of a week, or is now while it runs: from the repairs that were
 * finished and the plans that were kept by then, never from later ones. Null when the visit was not known by the end of
 * the week.
 */
export function weekExpected(db: ReadDatabase, input: TellingInput): WeekExpected | null {
  const telling = tellingCar(input)
  if (telling === null) return null
  const { car, week, visit, at } = telling
  const isKnownThen = (finish: PlannedFinish | null): boolean =>
    finish !== null && finish.revision >= visit.opened.number
  const [finish, before] = [
    { before: Math.min(input.now + 1, week.to), dayEnds: endOfMonday(addDays(week.monday, 7), input) },
    { before: week.from, dayEnds: endOfMonday(week.monday, input) },
  ]
    .map((until) => keptFinish(db, car.id, until))
    .map((kept) => (isKnownThen(kept) ? kept : null)) as [PlannedFinish | null, PlannedFinish | null]
  return {
    hours: expectedHours(telling, historyAt(db, at)),
    finish,
    before,
    elsewhere:
      finish === null || before === null
        ? []
        : elsewhereChanges(readFacts(db, null), { after: before.revision, upTo: finish.revision }),
  }
}

/** A computer that was off over the weekend keeps the plan of its end on Monday, before anything else comes in. */
const endOfMonday = (monday: string, { workshop }: TellingInput): Moment => dayEnd(monday, workshop.zone)

function historyAt(db: ReadDatabase, at: Moment): EstimateHistory {
  const known = readFinishedRepairs(db).filter((repair) => repair.finished.at <= at)
  return pastHistory(known, readEstimateHistory(db))
}
