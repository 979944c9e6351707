import type { CarState } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import { hours, joinWords, timeOfDay } from '../text/words.ts'
import type {
  ClockPastDay,
  HoursAfterEnd,
  NotAuthorised,
  OverAuthorised,
  OverPart,
  Overrun,
  Warning,
} from '../watch/warning.ts'
import type { AttentionLine, AttentionWay } from './attention-shapes.ts'
import { clockView } from './clock-views.ts'
import type { ViewContext } from './view-context.ts'
import { inSentence, loggedOnWords, repairName, targetWords } from './work-words.ts'

export type Said = Pick<AttentionLine, 'words' | 'todo' | 'way'>

/** What a warning of a car says, what to do, and where; nothing when its entry is gone. */
export function saidOf(car: CarState, warning: Warning, context: ViewContext): readonly Said[] {
  switch (warning.kind) {
    case 'clock':
      return clockWords(car, warning, context)
    case 'not authorised':
      return [notAuthorisedWords(car, warning)]
    case 'over authorised':
      return [overAuthorisedWords(car, warning)]
    case 'overrun':
      return [overrunWords(car, warning)]
    case 'after the end':
      return [afterEndWords(car, warning, context)]
  }
}

/** The same of a clock; the car is null for one on the workshop itself. */
export function clockWords(
  car: CarState | null,
  { entryId, personId, countsTo, stoppedAt }: ClockPastDay,
  context: ViewContext,
): readonly Said[] {
  const { nameOf, workshop } = context
  const entry = (car ?? workshop).entries.get(entryId)
  const clock = entry && clockView(car, entry, context)[0]
  if (entry === undefined || clock === undefined) return []
  const time = (moment: number) => timeOfDay(moment, workshop.zone)
  const on = inSentence(loggedOnWords(car, entry.on))
  const counts = `it counts to ${time(countsTo)}`
  return [
    {
      words:
        stoppedAt === null
          ? `${nameOf(personId)}'s clock still runs on ${on}; ${counts}.`
          : `${nameOf(personId)} stopped the clock on ${on} at ${time(stoppedAt)}, after the day's end; ${counts}.`,
      todo: 'Say when the work stopped.',
      way: { to: 'clock', clock },
    },
  ]
}

function notAuthorisedWords(car: CarState, { target, hours: beyond, why }: NotAuthorised): Said {
  const on = `${hours(beyond)} on ${workWords(car, target)}`
  const decisions: AttentionWay = { to: 'sheet', carId: car.id, sheet: 'decisions' }
  const estimate: AttentionWay = { to: 'sheet', carId: car.id, sheet: 'estimate' }
  switch (why.is) {
    case 'not estimated':
      return {
        words: `${on}, without an estimate.`,
        todo: 'Put these hours to a payer as a variation, or move them to where they belong.',
        way: decisions,
      }
    case 'estimate waits':
      return {
        words: `${on}, and the ${why.payer} has not accepted its estimate.`,
        todo: `Get the ${why.payer}'s answer, or stop the work.`,
        way: estimate,
      }
    case 'variation waits':
      return {
        words: `${on}, while '${why.title}' waits for the ${why.payer}'s answer.`,
        todo: `Get the ${why.payer}'s answer, or stop the work.`,
        way: decisions,
      }
    case 'declined':
      return {
        words: `${on}, and the ${why.payer} declined '${why.title}'.`,
        todo: 'Choose what happens with the declined work.',
        way: decisions,
      }
    case 'stopped':
      return {
        words: `${on}, where '${why.title}' is stopped.`,
        todo: 'Stop the work, or put it to its payer again.',
        way: decisions,
      }
  }
}

const MOST_PARTS = 2

function overAuthorisedWords(car: CarState, warning: OverAuthorised): Said {
  const { repairId, expected, authorised, hours: beyond, parts } = warning
  const figures = `${hours(expected)} expected, ${hours(authorised)} authorised, ${hours(beyond)} beyond`
  const todo = 'Ask the payer for the further hours, or take work out.'
  if (repairId !== null)
    return {
      words: `${repairName(car, repairId)}: ${figures}.`,
      todo,
      way: { to: 'repair', carId: car.id, repairId },
    }
  const most = parts
    .slice(0, MOST_PARTS)
    .map((part) => `${inSentence(partName(car, part))} (${hours(part.hours)})`)
  const where = most.length === 0 ? '' : `; most in ${joinWords(most)}`
  return {
    words: `The whole car: ${figures}${where}.`,
    todo,
    way: { to: 'sheet', carId: car.id, sheet: 'hours' },
  }
}

const partName = (car: CarState, { of }: OverPart): string =>
  'repairId' in of ? repairName(car, of.repairId) : (car.tasks.get(of.taskId)?.plan.name ?? 'a task')

function overrunWords(car: CarState, { target, spent, left, mark }: Overrun): Said {
  const rest = left === null ? '' : `, ${hours(left)} said to be left`
  return {
    words: `${targetWords(car, target)}: ${hours(spent)} spent${rest}; four of five stay under ${hours(mark)}.`,
    todo:
      left === null
        ? 'Ask what is left, and say it there.'
        : 'Ask what went wrong, and whether more must be agreed.',
    way: workWay(car, target),
  }
}

function afterEndWords(
  car: CarState,
  { target, standing, hours: late, causes, personId }: HoursAfterEnd,
  { nameOf }: ViewContext,
): Said {
  const on = `${hours(late)} on ${workWords(car, target)}`
  if (standing !== 'passed')
    return {
      words: `${on}, ${ENDED[standing]}.`,
      todo: `Ask ${nameOf(personId)}; move the hours to where they belong.`,
      way: { to: 'day sheet', personId },
    }
  if (causes.includes('not stated'))
    return {
      words: `${on}, after it was passed and without a cause.`,
      todo: `Ask ${nameOf(personId)}, and correct the entry with the cause.`,
      way: { to: 'day sheet', personId },
    }
  return {
    words: `${on}, after it was passed; rework: ${joinWords(causes)}.`,
    todo: 'Reopen it if it must be checked and signed again.',
    way: workWay(car, target),
  }
}

const ENDED: Readonly<Record<Exclude<HoursAfterEnd['standing'], 'passed'>, string>> = {
  'not needed': 'after it was marked not needed',
  'as found': 'after its repair was closed as found',
  retired: 'after its repair was retired',
}

/** 'boot floor: welded' inside a sentence. */
const workWords = (car: CarState, target: WorkTarget): string => inSentence(targetWords(car, target))

const workWay = (car: CarState, target: WorkTarget): AttentionWay =>
  target.kind === 'gate'
    ? { to: 'repair', carId: car.id, repairId: target.repairId }
    : { to: 'sheet', carId: car.id, sheet: 'map' }
