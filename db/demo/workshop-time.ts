import { entryIdSchema, type PersonId } from '../../domain/ids.ts'
import { weekdayNumber } from '../../domain/time/local-date.ts'
import { instantToIso, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { demoPeople, type DemoPerson } from './demo-people.ts'
import type { Floor } from './floor.ts'
import { isOffOn } from './job-book.ts'
import { marrick } from './cars/marrick.ts'
import { demoCarId } from './stage.ts'

/** Who sweeps on Fridays, and until when they are at the cars before. */
const SWEEPERS: readonly DemoPerson[] = [demoPeople.pia, demoPeople.joss]
export const LEAVE_CARS_AT = '15:45'
const SWEEP_FROM = '15:50'
const SWEEP_TO = '16:25'

/** Days of a typing slip in a time entry and of a note on the wrong car, put right the next morning. */
const SLIP_DAY = -20
const WRONG_NOTE_DAY = -9

export const isSweeper = (floor: Floor, person: DemoPerson, day: number): boolean =>
  isFriday(floor, day) && SWEEPERS.includes(person)

/** Hours that belong to no car, and slips that everybody makes: they are put right in the open. */
export function planWorkshopTime(floor: Floor, day: number): void {
  const { agenda, days } = floor
  if (isFriday(floor, day)) agenda.add(days.at(day, '16:30'), () => logFriday(floor, day))
  if (day === SLIP_DAY) agenda.add(days.at(day, '15:00'), () => logWithSlip(floor, day))
  if (day === WRONG_NOTE_DAY) agenda.add(days.at(day, '09:30'), () => noteOnWrongCar(floor))
}

const isFriday = ({ days }: Floor, day: number): boolean => weekdayNumber(days.date(day)) === 5

function logFriday(floor: Floor, day: number): void {
  const { days, stage } = floor
  const at = (time: string) => instantToIso(days.at(day, time), stage.zone)
  for (const { id } of SWEEPERS.filter((person) => !isOffOn(person, day)))
    logOnWorkshop(floor, id, 'Sweep the hall, sort the scrap', {
      kind: 'span',
      start: at(SWEEP_FROM),
      end: at(SWEEP_TO),
    })
  const hours = Math.round(stage.random.between(16, 28)) / 4
  if (!isOffOn(demoPeople.maren, day))
    logOnWorkshop(floor, demoPeople.maren.id, 'Estimates, letters, orders', {
      kind: 'day',
      date: days.date(day),
      hours,
    })
}

type Time = { readonly kind: 'span'; readonly start: string; readonly end: string } | DayTime
type DayTime = { readonly kind: 'day'; readonly date: string; readonly hours: number }

function logOnWorkshop({ stage }: Floor, personId: PersonId, what: string, time: Time) {
  const entryId = entryIdSchema.parse(stage.id('entry'))
  stage.send('logTime', null, personId, {
    entryId,
    personId,
    on: { kind: 'workshop', what },
    hotWork: false,
    cause: null,
    time,
    shares: null,
    note: '',
  })
  return entryId
}

function logWithSlip(floor: Floor, day: number): void {
  const { agenda, days, stage } = floor
  const personId = demoPeople.tam.id
  const what = 'Set up the new spot welder'
  const date = days.date(day)
  const wrong = logOnWorkshop(floor, personId, what, { kind: 'day', date, hours: 7.5 })
  agenda.add(days.at(day + 1, '08:05'), () =>
    stage.send('correctTime', null, personId, {
      entryId: entryIdSchema.parse(stage.id('entry')),
      replaces: wrong,
      personId,
      on: { kind: 'workshop', what },
      cause: null,
      time: { kind: 'day', date, hours: 0.75 },
      shares: null,
      reason: 'Typed 7.5 for 0.75.',
    }),
  )
}

function noteOnWrongCar({ agenda, stage }: Floor): void {
  const carId = demoCarId(marrick.key)
  const text = 'Tailgate chain to be kept, owner has the other half.'
  const [number] = stage.send('addNote', carId, demoPeople.bram.id, { text })
  if (number === undefined) return
  agenda.add(stage.now() + WRONG_NOTE_STANDS_MS, () =>
    stage.send('voidFact', carId, demoPeople.maren.id, { number, reason: 'Belongs to the pick-up.' }),
  )
}

const WRONG_NOTE_STANDS_MS = 3 * MS_PER_HOUR
