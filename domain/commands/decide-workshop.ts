import { LEAST_DIGITS_OF_MANAGER, leastDigits } from './code-digits.ts'
import type { CarState } from '../car.ts'
import { startingCatalogue } from '../catalogue.ts'
import { usualBays } from '../usual-workshop.ts'
import { fact, type PayloadOf } from '../facts.ts'
import type { Role } from '../facts/workshop-facts.ts'
import type { BayId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { isTimeZone, localDateOf, localYearOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import type { CommandPayload } from './command-shapes.ts'
import type { Decided, DecideContext } from './decide.ts'
import { firstRefusal, record, refuseIf, type Decider, type Refused } from './deciders.ts'
import { dateRangeWords, joinWords } from '../text/words.ts'
import { ERASED_CONTACT } from './erased-contact.ts'
import { planRefusal } from './plan-problems.ts'

type WorkshopKind =
  | 'setUpWorkshop'
  | 'addPerson'
  | 'changePerson'
  | 'setCode'
  | 'addParty'
  | 'changeContact'
  | 'eraseContact'
  | 'addBay'
  | 'changeBay'
  | 'setCalendar'
  | 'changeSettings'
  | 'setReports'
  | 'saveType'
  | 'retireType'

export const workshopDeciders: { readonly [K in WorkshopKind]: Decider<K> } = {
  setUpWorkshop: (payload, context) => setUp(payload, context),

  addPerson: ({ contact, code, ...person }, { workshop }) =>
    firstRefusal(
      refuseIf(
        workshop.people.has(person.personId),
        'already',
        'This person is known already.',
        'Change them instead.',
      ),
      codeRefusal(person.roles, code),
    ) ??
    ok({
      facts: [fact('personAdded', person)],
      contacts: [{ id: person.personId, contact }],
      codes: [{ personId: person.personId, code }],
    }),

  changePerson: ({ contact, newCode, ...person }, { workshop }) =>
    firstRefusal(
      refuseIf(
        !workshop.people.has(person.personId),
        'unknown',
        'This person is not known.',
        'Add them first.',
      ),
      erasedRefusal(workshop, person.personId),
      refuseIf(
        isLastManager(workshop, person.personId) && !(person.active && person.roles.includes('manager')),
        'not-now',
        'A workshop needs a manager, and this is the last one.',
        'Make another person a manager first.',
      ),
      newManagerRefusal(workshop, person, newCode),
    ) ??
    ok({
      facts: [fact('personChanged', person)],
      contacts: [{ id: person.personId, contact }],
      codes: newCode === undefined ? [] : [{ personId: person.personId, code: newCode }],
    }),

  setCode: ({ personId, newCode }, { workshop, by }) => {
    const person = workshop.people.get(personId)
    const actor = by ? workshop.people.get(by) : undefined
    if (!person) return refuse('unknown', 'This person is not known.', 'Choose a person from the list.')
    const refused = firstRefusal(
      refuseIf(
        personId !== by && !actor?.roles.includes('manager'),
        'not-allowed',
        "Only a manager may set another person's code.",
        'Ask a manager.',
      ),
      codeRefusal(person.roles, newCode),
    )
    return refused ?? ok({ facts: [], contacts: [], codes: [{ personId, code: newCode }] })
  },

  addParty: ({ contact, ...party }, { workshop }) =>
    refuseIf(
      workshop.parties.has(party.partyId),
      'already',
      'This contact is known already.',
      'Change it instead.',
    ) ?? ok({ facts: [fact('partyAdded', party)], contacts: [{ id: party.partyId, contact }], codes: [] }),

  changeContact: ({ id, contact }, { workshop }) =>
    firstRefusal(
      refuseIf(!isKnownContact(workshop, id), 'unknown', 'This contact is not known.', 'Add it first.'),
      erasedRefusal(workshop, id),
    ) ?? ok({ facts: [], contacts: [{ id, contact }], codes: [] }),

  eraseContact: ({ id }, { workshop, namedBy }) =>
    firstRefusal(
      refuseIf(!isKnownContact(workshop, id), 'unknown', 'This contact is not known.', 'Reload the list.'),
      refuseIf(workshop.erased.has(id), 'already', 'This contact was erased already.', 'Nothing to do.'),
      refuseIf(
        [...workshop.people.values()].some((person) => person.id === id && person.active),
        'not-now',
        'This person works here.',
        'Open People and take ‘Works here’ off first.',
      ),
      namedRefusal(namedBy),
    ) ??
    ok({ facts: [fact('contactErased', { id })], contacts: [{ id, contact: ERASED_CONTACT }], codes: [] }),

  addBay: (bay, { workshop }) =>
    refuseIf(workshop.bays.has(bay.bayId), 'already', 'This bay is known already.', 'Change it instead.') ??
    record(fact('bayAdded', bay)),

  changeBay: (bay, context) =>
    firstRefusal(
      refuseIf(!context.workshop.bays.has(bay.bayId), 'unknown', 'This bay is not known.', 'Add it first.'),
      refuseIf(
        !bay.active && [...context.others.standing.values()].includes(bay.bayId),
        'not-now',
        'A car stands in this bay.',
        'Move the car first, then take the bay out.',
      ),
      bay.active ? null : bookedRefusal(bay.bayId, context),
    ) ?? record(fact('bayChanged', bay)),

  setCalendar: (calendar) => record(fact('calendarSet', calendar)),
  changeSettings: (settings) => record(fact('settingsSet', settings)),
  setReports: (settings) => record(fact('reportsSet', settings)),

  saveType: ({ typeId, plan }, { workshop }) =>
    planRefusal(plan) ??
    record(fact('typeSaved', { typeId, plan, version: (workshop.types.get(typeId)?.version ?? 0) + 1 })),

  retireType: (payload, { workshop }) =>
    refuseIf(
      !workshop.types.has(payload.typeId),
      'unknown',
      'This repair type is not known.',
      'Reload the list.',
    ) ?? record(fact('typeRetired', payload)),
}

const setUp = (payload: CommandPayload<'setUpWorkshop'>, { workshop }: DecideContext): Result<Decided> => {
  const { managerId, manager, code, skills, withCatalogue, ...workshopFact } = payload
  const refused = firstRefusal(
    refuseIf(workshop.setUp, 'already', 'This workshop is set up already.', 'Sign in instead.'),
    refuseIf(
      !isTimeZone(workshopFact.zone),
      'bad-input',
      'This time zone is not known.',
      'Choose one like Europe/London.',
    ),
  )
  if (refused) return refused
  const person = {
    personId: managerId,
    roles: ['manager', 'technician'] as Role[],
    skills,
    week: null,
    absences: [],
  }
  const catalogue = withCatalogue
    ? [
        ...usualBays.map((bay) => fact('bayAdded', bay)),
        ...startingCatalogue.map((type) => fact('typeSaved', { ...type, version: 1 })),
      ]
    : []
  return ok({
    facts: [fact('workshopSetUp', workshopFact), fact('personAdded', person), ...catalogue],
    contacts: [{ id: managerId, contact: manager }],
    codes: [{ personId: managerId, code }],
  })
}

/** A bay that is booked from today on cannot be taken out of use: the booking would name no place. */
function bookedRefusal(bayId: BayId, { workshop, others, now }: DecideContext): Refused | null {
  const today = localDateOf(now, workshop.zone)
  const booking = others.bookings.find((each) => each.bayId === bayId && each.to >= today)
  if (booking === undefined) return null
  const car = others.carNames.get(booking.carId) ?? 'a car'
  const dates = dateRangeWords(booking.from, booking.to, localYearOf(now, workshop.zone))
  return refuse(
    'not-now',
    `This bay is booked for ${car}, ${dates}.`,
    'Move or cancel the booking on the Plan first, then take the bay out.',
  )
}

const codeRefusal = (roles: readonly Role[], code: string): Refused | null =>
  refuseIf(
    code.length < leastDigits(roles),
    'bad-input',
    `A manager's code has ${LEAST_DIGITS_OF_MANAGER} digits or more.`,
    'Choose a longer code.',
  )

/** The code of a technician may be shorter than a manager's, and nobody can tell from what is stored. */
function newManagerRefusal(
  workshop: WorkshopState,
  { personId, roles }: PayloadOf<'personChanged'>,
  newCode: string | undefined,
): Refused | null {
  if (newCode !== undefined) return codeRefusal(roles, newCode)
  return refuseIf(
    roles.includes('manager') && workshop.people.get(personId)?.roles.includes('manager') === false,
    'bad-input',
    'Who becomes a manager needs a new code.',
    `Choose one of ${LEAST_DIGITS_OF_MANAGER} digits or more.`,
  )
}

const erasedRefusal = ({ erased }: WorkshopState, id: string): Refused | null =>
  refuseIf(
    [...erased.keys()].some((each) => each === id),
    'not-now',
    'The name and address of this contact were erased for good.',
    'Add a new contact instead.',
  )

const namedRefusal = (cars: readonly CarState[]): Refused | null =>
  refuseIf(
    cars.length > 0,
    'not-now',
    `The name is needed until the work on ${joinWords(cars.map(({ name, shellNumber }) => `${name} (${shellNumber})`))} is done.`,
    'Deliver the car or bring its shell back first; a visit that is only agreed can be set back to enquired.',
  )

const isLastManager = (workshop: WorkshopState, id: string): boolean =>
  [...workshop.people.values()].every(
    (person) => person.id === id || !person.active || !person.roles.includes('manager'),
  )

const isKnownContact = (workshop: WorkshopState, id: string): boolean =>
  [...workshop.people.keys(), ...workshop.parties.keys()].some((known) => known === id)
