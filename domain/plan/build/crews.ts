import type { EntryState } from '../../car.ts'
import type { PersonId } from '../../ids.ts'
import { hasSkill, NO_SKILL } from '../../rules/work-holds.ts'
import { plural } from '../../text/words.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { PlannedWork } from '../plan.ts'
import type { Crew } from '../problem.ts'
import type { DraftWork } from './draft-work.ts'
import { type NamedFault, namedFault } from './faults.ts'
import { entriesOn } from './hours-left.ts'
import type { PlanPeople } from './people.ts'

/** Who may do the work and who must, or why nobody can. */
export type DraftCrew =
  | {
      readonly ok: true
      readonly crew: Crew
      readonly pinned: boolean
      readonly faults: readonly NamedFault[]
    }
  | { readonly ok: false; readonly fault: NamedFault }

export interface CrewContext {
  readonly workshop: WorkshopState
  readonly people: PlanPeople
  /** What the plan in force gives this work for the frozen days; null when nothing. */
  readonly frozenOf: (work: DraftWork) => PlannedWork | null
}

export function draftCrew(work: DraftWork, context: CrewContext): DraftCrew {
  const { people } = context
  const { skill, people: size } = work.plan
  const pinned = pinnedPeople(work, context)
  const named = (pinned.named.length > 0 ? pinned.named : keptPeople(work, context)).slice(0, size)
  const skilled = [...people.all.values()].filter((person) => hasSkill(person, skill)).map(({ id }) => id)
  const able = [...new Set([...skilled, ...named])].filter((id) => people.hasHours(id))
  if (able.length < size) return { ok: false, fault: crewFault(work, skilled.length, context) }
  const crew: Crew = { people: size, able: numbers(able, people), named: numbers(named, people) }
  return { ok: true, crew, pinned: pinned.named.length > 0, faults: pinned.faults }
}

const numbers = (ids: readonly PersonId[], { numberOf }: PlanPeople): readonly number[] =>
  ids.flatMap((id) => numberOf(id) ?? []).toSorted((a, b) => a - b)

function crewFault(work: DraftWork, skilled: number, { people }: CrewContext): NamedFault {
  const { skill, people: size } = work.plan
  const who = `${plural('person', size, 'people')}${skill === NO_SKILL ? '' : ` with the skill '${skill}'`}`
  const needed = `${who} ${size === 1 ? 'is' : 'are'} needed`
  if (skilled < size && skill === NO_SKILL)
    return namedFault(
      work,
      'no skill',
      skill,
      `${needed}, and ${skilled === 0 ? 'nobody is' : `${skilled} ${skilled === 1 ? 'is' : 'are'}`} at work`,
      'Add somebody under Workshop, People, or change how many the work asks for.',
    )
  if (skilled < size) {
    const has =
      skilled === 0 ? 'nobody at work has it' : `${skilled} at work ${skilled === 1 ? 'has' : 'have'} it`
    const next = `Give somebody the skill '${skill}' under Workshop, People, or change what the work asks for.`
    return namedFault(work, 'no skill', skill, `${needed}, and ${has}`, next)
  }
  return namedFault(
    work,
    'no hours',
    skill,
    `${needed}, and too few ${skill === NO_SKILL ? '' : 'of those who have it '}${people.hoursWords}`,
    'Give them working hours under Workshop, Calendar, or shorten their absences.',
  )
}

/** Pinned people who cannot come are named and left out. */
function pinnedPeople(
  work: DraftWork,
  { people, workshop }: CrewContext,
): { readonly named: readonly PersonId[]; readonly faults: readonly NamedFault[] } {
  const ids = work.car.pins.get(work.key)?.people ?? []
  const missing = ids.filter((id) => !people.hasHours(id))
  const unskilled = ids.filter((id) => people.hasHours(id) && !canDo(workshop, id, work.plan.skill))
  const next = 'Take the pin away, or pin it to somebody else.'
  return {
    named: ids.filter((id) => !missing.includes(id) && !unskilled.includes(id)),
    faults: [
      ...missing.map((id) =>
        namedFault(
          work,
          'pins clash',
          id,
          `pinned to ${people.nameOf(id)}, who does not work here now`,
          next,
        ),
      ),
      ...unskilled.map((id) =>
        namedFault(
          work,
          'no skill',
          `pin ${id}`,
          `pinned to ${people.nameOf(id)}, who has not the skill '${work.plan.skill}'`,
          next,
        ),
      ),
    ],
  }
}

const canDo = ({ people }: WorkshopState, id: PersonId, skill: string): boolean =>
  hasSkill(people.get(id), skill)

/** Work begun stays with who has it, and within the frozen days it stays with who was given it; unless they are not there. */
function keptPeople(work: DraftWork, { people, frozenOf }: CrewContext): readonly PersonId[] {
  const kept = work.left.begun ? peopleOn(work) : (frozenOf(work)?.people ?? [])
  return kept.filter((id) => people.isBackSoon(id))
}

/** Those whose clock runs on it, else the one who was on it last. */
function peopleOn({ car, key }: DraftWork): readonly PersonId[] {
  const entries = entriesOn(car, key)
  const running = entries.filter(({ time }) => time.kind === 'running').map(({ personId }) => personId)
  if (running.length > 0) return [...new Set(running)]
  const last = entries.toSorted((a, b) => endOf(a) - endOf(b)).at(-1)
  return last === undefined ? [] : [last.personId]
}

function endOf({ time, stamp }: EntryState): number {
  switch (time.kind) {
    case 'span':
      return Date.parse(time.end)
    case 'day':
      return Date.parse(`${time.date}T23:59:59Z`)
    case 'running':
      return stamp.happened
  }
}
