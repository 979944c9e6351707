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
  return promised === null ? '' : `The promised date is ${dateWords(telling, promised)}.`
}

function promiseText(telling: Telling, was: string | null): string {
  const { promised } = telling.visit
  if (promised === null)
    return was === null
      ? ''
      : `The promised date, ${dateWords(telling, was)}, was withdrawn this week; a new one is not set yet.`
  const now = dateWords(telling, promised)
  if (was === null) return `The promised date is now set: ${now}.`
  if (was === promised)
    return telling.visit.status === 'paused'
      ? `The promised date, ${now}, is from before the pause.`
      : `The promised date is ${now}, as before.`
  return `The promised date was moved this week, from ${dateWords(telling, was)} to ${now}.`
}

/** A paused visit is not late. */
function lateText({ visit }: Telling, today: string): string {
  const { promised, status } = visit
  if (promised === null || promised >= today || status === 'paused') return ''
  return 'That day has passed and the car is not finished.'
}

/** Dates are compared, as the owner reads them. */
function outlookText(telling: Telling, today: string): string {
  const { promised } = telling.visit
  const dates = finishDates(telling, today)
  if (promised === null || dates === null) return ''
  if (dates.late <= promised) return 'As it looks now we shall keep it.'
  return dates.early <= promised
    ? 'As it looks now we may keep it, but we cannot be sure of it.'
    : 'As it looks now we shall not keep it, and we are sorry for that.'
}
