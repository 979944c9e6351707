import { finishDates } from './finish-dates.ts'
import { dateWords, type Telling } from './telling.ts'

/** The promised date, whether it was moved this week, whether it has gone by, and whether it is likely to be kept. */
export function promiseTexts(telling: Telling, today: string): readonly string[] {
  const { visit, before } = telling
  const earlier = before?.visits.get(visit.id)
  const texts = [
    earlier === undefined ? newText(telling) : promiseText(telling, earlier.promised),
    lateText(telling, today) || outlookText(telling, today),
  ]
  return texts.filter((text) => text !== '')
}

/** In the first report nothing was said before. */
function newText(telling: Telling): string {
  const { promised } = telling.visit
  return promised === null ? '' : telling.say.ready.promised(dateWords(telling, promised))
}

function promiseText(telling: Telling, was: string | null): string {
  const { promised } = telling.visit
  const { ready } = telling.say
  if (promised === null) return was === null ? '' : ready.promiseWithdrawn(dateWords(telling, was))
  const now = dateWords(telling, promised)
  if (was === null) return ready.promiseSet(now)
  if (was === promised)
    return telling.visit.status === 'paused' ? ready.promisedBeforePause(now) : ready.promisedAsBefore(now)
  return ready.promiseMoved(dateWords(telling, was), now)
}

/** A paused visit is not late. */
function lateText({ visit, say }: Telling, today: string): string {
  const { promised, status } = visit
  if (promised === null || promised >= today || status === 'paused') return ''
  return say.ready.promisePassed
}

/** Dates are compared, as the owner reads them. */
function outlookText(telling: Telling, today: string): string {
  const { promised } = telling.visit
  const { ready } = telling.say
  const dates = finishDates(telling, today)
  if (promised === null || dates === null) return ''
  if (dates.late <= promised) return ready.willKeep
  return dates.early <= promised ? ready.mayKeep : ready.willNotKeep
}
