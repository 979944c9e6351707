import type { PlanNames } from '../../domain/drawing/plan-rows.ts'
import type { WhatIf } from '../../domain/plan/plan.ts'
import { joinWords, LONG_WEEKDAYS } from '../../domain/text/words.ts'
import type { When } from '../parts/frame/when.tsx'

/** 'Mondays'; Monday first. */
export const EACH_WEEKDAY = LONG_WEEKDAYS.map((day) => `${day}s`)

/** What is assumed, as a sentence without its end. @param part the name of the part that is late */
export function whatIfWords(whatIf: WhatIf, names: PlanNames, when: When, part = 'a part'): string {
  switch (whatIf.kind) {
    case 'person off':
      return `${names.person(whatIf.personId)} is off, ${when.range(whatIf.from, whatIf.to)}`
    case 'part late':
      return `${part} of the ${names.car(whatIf.carId)} comes on ${when.day(whatIf.expected)}`
    case 'new car': {
      const promised =
        whatIf.promised === null ? 'nothing promised' : `promised for ${when.day(whatIf.promised)}`
      return `${whatIf.name} comes in on ${when.day(whatIf.arrives)} with the repairs of the ${names.car(whatIf.like)}, ${promised}`
    }
    case 'overtime': {
      const days = joinWords(whatIf.weekdays.map((day) => EACH_WEEKDAY[day - 1] ?? ''))
      return `${joinWords(whatIf.people.map(names.person))} also work ${days} from ${whatIf.span.from} to ${whatIf.span.to}, ${when.range(whatIf.from, whatIf.to)}`
    }
    case 'one more bay':
      return `one more bay, ${whatIf.name}, for ${joinWords(whatIf.kinds)}`
    case 'booking':
      return `the ${names.car(whatIf.carId)} stands in ${names.bay(whatIf.bayId)}, ${when.range(whatIf.from, whatIf.to)}`
    case 'pin':
      return `${names.work(whatIf)} is pinned`
  }
}
