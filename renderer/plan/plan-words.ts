import type { PlanBlock, PlanNames } from '../../domain/drawing/plan-rows.ts'
import { worksOf } from '../../domain/drawing/plan-merge.ts'
import type { CarId } from '../../domain/ids.ts'
import type { PlannedCar, PlannedMove, PlannedStay, PlannedWork } from '../../domain/plan/plan.ts'
import { hours, joinWords, plural } from '../../domain/text/words.ts'
import { daysBetween } from '../../domain/time/local-date.ts'
import type { CarComparison, PlanComparison } from '../../domain/views/plan-view-shapes.ts'
import type { When } from '../parts/frame/when.tsx'

/** 'Thu 26 Nov, 08:00 to 14:30' or with both days when they differ. */
export function spanWords(from: number, to: number, when: When): string {
  const isSameDay = when.dateOf(from) === when.dateOf(to)
  return `${when.dayAndTime(from)} to ${isSameDay ? when.time(to) : when.dayAndTime(to)}`
}

/** What a block of the drawing is, in words, as it is read out when the focus comes to it. */
export function blockWords(block: PlanBlock, names: PlanNames, when: When): string {
  switch (block.kind) {
    case 'stay':
      return stayWords(block.stay, names, when)
    case 'work':
      return workWords(block.work, names, when)
    case 'car':
      return `${names.car(block.carId)}: ${plural('piece', block.works.length)} of work, ${spanWords(block.from, block.to, when)}`
    case 'mixed': {
      const cars = new Set(worksOf(block).map((work) => names.car(work.carId)))
      return `${joinWords([...cars])}: ${plural('short piece', block.works.length)} of work, ${spanWords(block.from, block.to, when)}`
    }
    case 'move':
      return moveWords(block.move, names, when)
    case 'finish':
      return finishWords(block.car, names, when)
  }
}

function stayWords({ carId, bayId, from, to, bookingId }: PlannedStay, names: PlanNames, when: When): string {
  const booked = bookingId === null ? '' : ', pinned by a booking'
  return `${names.car(carId)} in ${names.bay(bayId)}, ${when.day(from)} to ${when.day(to)}${booked}`
}

function workWords(work: PlannedWork, names: PlanNames, when: When): string {
  return `${names.car(work.carId)}, ${names.work(work)}, ${spanWords(work.start, work.finish, when)}${pinWords(work)}`
}

/** ', pinned to its people and its day', or nothing. */
const pinWords = (work: PlannedWork): string => (pinnedTo(work) === '' ? '' : `, pinned to ${pinnedTo(work)}`)

/** 'its people and its day'; nothing where the plan is free. */
export const pinnedTo = ({ pinned }: PlannedWork): string =>
  joinWords([...(pinned.people ? ['its people'] : []), ...(pinned.day ? ['its day'] : [])])

export function moveWords(
  { carId, from, to, start, finish }: PlannedMove,
  names: PlanNames,
  when: When,
): string {
  const way = from === null ? `into ${names.bay(to)}` : `from ${names.bay(from)} to ${names.bay(to)}`
  return `${names.car(carId)} is moved ${way}, ${spanWords(start, finish, when)}`
}

function finishWords(car: PlannedCar, names: PlanNames, when: When): string {
  const promised = car.promised === null ? 'nothing promised' : `promised ${when.day(car.promised)}`
  return `${names.car(car.carId)}: ${promised}, ${finishRange(car, when)}${lateWords(daysLate(car, when))}`
}

/** 'finished Thu 3 Dec (50 %) to Tue 8 Dec (80 %)' */
function finishRange({ finish, finish50, finish80 }: PlannedCar, when: When): string {
  if (finish50 !== null && finish80 !== null) {
    return `finished ${when.day(finish50)} with 50 %, ${when.day(finish80)} with 80 %`
  }
  return finish === null
    ? 'no finish, as part of its work could not be planned'
    : `finished ${when.day(finish)}`
}

const lateWords = (days: number): string => (days === 0 ? '' : `, ${plural('day', days)} late`)

/** Local days that the 80 % finish (the planned one while that is not known) lies after the promised date; 0 when on time. */
export function daysLate({ promised, finish80, finish }: PlannedCar, when: Pick<When, 'dateOf'>): number {
  const at = finish80 ?? finish
  if (promised === null || at === null) return 0
  // What ends at midnight ends on the day before.
  return Math.max(0, daysBetween(promised, when.dateOf(at - 1)))
}

/** '2 cars earlier, 1 car later' by a local day or more; 'every car as before' when none is. */
export function comparisonWords({ cars }: Pick<PlanComparison, 'cars'>, when: Pick<When, 'dateOf'>): string {
  const shifts = cars.map((car) => dayShift(car, when))
  const earlier = shifts.filter((days) => days < 0).length
  const later = shifts.filter((days) => days > 0).length
  const said = [
    ...(earlier > 0 ? [`${plural('car', earlier)} earlier`] : []),
    ...(later > 0 ? [`${plural('car', later)} later`] : []),
  ]
  return said.length === 0 ? 'every car as before' : said.join(', ')
}

/** Local days that a car's finish moves; the 80 % finish where both plans have it. */
export function dayShift(car: CarComparison, when: Pick<When, 'dateOf'>): number {
  const pair =
    car.finish80Before !== null && car.finish80After !== null
      ? ([car.finish80Before, car.finish80After] as const)
      : ([car.finishBefore, car.finishAfter] as const)
  const [before, after] = pair
  return before === null || after === null ? 0 : daysBetween(when.dateOf(before), when.dateOf(after))
}

export interface Consequence {
  readonly carId: CarId
  readonly words: string
  readonly isWorse: boolean
}

/** Who becomes late and by how much, who moves without becoming late; the worst first. */
export function consequences({ cars }: Pick<PlanComparison, 'cars'>, when: When): readonly Consequence[] {
  return cars
    .map((car) => ({ car, late: car.daysLateAfter - car.daysLateBefore, shift: dayShift(car, when) }))
    .filter(({ late, shift }) => late !== 0 || shift !== 0)
    .toSorted((a, b) => b.late - a.late || b.shift - a.shift)
    .map(({ car, late, shift }) => ({
      carId: car.carId,
      isWorse: late > 0,
      words: consequenceWords(car, late, shift),
    }))
}

function consequenceWords(car: CarComparison, late: number, shift: number): string {
  const { name, daysLateBefore, daysLateAfter } = car
  if (late > 0 && daysLateBefore === 0) return `${name} becomes late by ${plural('day', daysLateAfter)}`
  if (late > 0) return `${name} ${plural('day', daysLateAfter)} late instead of ${daysLateBefore}`
  if (late < 0 && daysLateAfter === 0)
    return `${name} is on time instead of ${plural('day', daysLateBefore)} late`
  if (late < 0) return `${name} ${plural('day', daysLateAfter)} late instead of ${daysLateBefore}`
  return `${name} finished ${plural('day', Math.abs(shift))} ${shift > 0 ? 'later' : 'earlier'}, still ${daysLateAfter === 0 ? 'on time' : `${plural('day', daysLateAfter)} late`}`
}

/** '12.5 h by Wren and Tam' */
export const effortWords = (work: PlannedWork, names: PlanNames): string =>
  `${hours(work.hours)} by ${joinWords(work.people.map(names.person)) || 'nobody'}`
