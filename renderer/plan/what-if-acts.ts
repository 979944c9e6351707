import type { BayId, OvertimeId, PartId } from '../../domain/ids.ts'
import type { WhatIf } from '../../domain/plan/plan.ts'
import type { WorkshopView } from '../../electron/api/workshop-views.ts'
import { freePlace } from '../parts/drawing/bay-place.ts'
import type { Act } from '../parts/form/use-command.ts'

export type WhatIfAct = Act<'changePerson'> | Act<'movePart'> | Act<'setOvertime'> | Act<'addBay'>

/**
 * The fact that taking an assumption records; null for those that are entered on a form of their own (a new car) or
 * recorded where they are dragged and pinned.
 *
 * @param newId makes the id of what is added
 */
export function whatIfAct(
  whatIf: WhatIf,
  workshop: Pick<WorkshopView, 'people' | 'bays'>,
  newId: <Id extends string>() => Id,
): WhatIfAct | null {
  switch (whatIf.kind) {
    case 'person off':
      return absenceAct(whatIf, workshop)
    case 'part late': {
      const { carId, partId, expected } = whatIf
      const payload = { partId: partId as PartId, state: 'ordered' as const, expected, reason: '' }
      return { kind: 'movePart', carId, payload }
    }
    case 'overtime': {
      const { people, from, to, weekdays, span } = whatIf
      const payload = { overtimeId: newId<OvertimeId>(), people, from, to, weekdays, span }
      return { kind: 'setOvertime', carId: null, payload }
    }
    case 'one more bay': {
      const floor = freePlace(
        workshop.bays.filter(({ active }) => active).map((bay) => ({ place: bay.floor })),
      )
      const payload = { bayId: newId<BayId>(), name: whatIf.name, kinds: whatIf.kinds, floor: { ...floor } }
      return { kind: 'addBay', carId: null, payload }
    }
    case 'new car':
    case 'booking':
    case 'pin':
      return null
  }
}

/** A person's entry is changed as a whole, so that of the workshop is sent with one absence more. */
function absenceAct(
  { personId, from, to }: Extract<WhatIf, { kind: 'person off' }>,
  { people }: Pick<WorkshopView, 'people'>,
): WhatIfAct | null {
  const person = people.find(({ id }) => id === personId)
  // The contact is only given to a signed-in manager, and the entry is only changed by one.
  if (person === undefined || person.contact === null) return null
  const { roles, skills, week, absences, active, contact } = person
  const payload = {
    personId,
    roles: [...roles],
    skills: [...skills],
    week: week === null ? null : week.map((day) => day.map((span) => ({ ...span }))),
    absences: [...absences.map((each) => ({ ...each })), { from, to }],
    active,
    contact,
  }
  return { kind: 'changePerson', carId: null, payload }
}
