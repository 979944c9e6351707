import { fact } from '../facts.ts'
import type { VisitStatus } from '../facts/car-facts.ts'
import { refuse } from '../refusal.ts'
import { activeRepairs, isFinished, openAway, standingFaults } from '../rules/standing.ts'
import type { CarState } from '../car.ts'
import type { PartyId } from '../ids.ts'
import {
  findVisit,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import type { DecideContext } from './decide.ts'
import { isOver } from '../visit-over.ts'

type CarKind =
  | 'addCar'
  | 'changeCar'
  | 'openVisit'
  | 'changeVisit'
  | 'setVisitStatus'
  | 'setSafety'
  | 'addDimension'
  | 'setDimensionTarget'
  | 'readDimension'
  | 'addNote'

export const carDeciders: { readonly [K in CarKind]: Decider<K> } = {
  addCar: ({ visit, photo, ...car }, context) =>
    firstRefusal(
      refuseIf(
        context.car !== null,
        'already',
        'This car is known already.',
        'Open it from the list of cars.',
      ),
      shellRefusal(context, car.shellNumber),
      ownerRefusal(context, visit),
      photo ? photoRefusal(context, photo.sha256) : null,
    ) ??
    record(
      fact('carAdded', car),
      fact('visitOpened', visit),
      ...(photo
        ? [fact('photoAttached', { ...photo, caption: 'As it came in', serves: [{ what: 'car' }] })]
        : []),
    ),

  changeCar: onCar(
    (payload, context) => shellRefusal(context, payload.shellNumber) ?? record(fact('carChanged', payload)),
  ),

  openVisit: onCar(
    (visit, context) =>
      firstRefusal(
        refuseIf(
          context.car.visits.has(visit.visitId),
          'already',
          'This visit is open already.',
          'Reload the car.',
        ),
        ownerRefusal(context, visit),
        lastVisitRefusal(context),
        refuseIf(
          visit.kind === 'warranty' && context.car.visits.size === 0,
          'bad-input',
          'A warranty return needs an earlier visit.',
          'Open an ordinary visit.',
        ),
      ) ?? record(fact('visitOpened', visit)),
  ),

  changeVisit: onCar((payload, context) => {
    const visit = findVisit(context.car, payload.visitId)
    if (!visit.ok) return visit
    const isOther = payload.insurerId !== visit.value.insurerId
    return (
      (isOther ? insurerRefusal(context, payload.insurerId ?? null) : null) ??
      record(fact('visitChanged', payload))
    )
  }),

  setVisitStatus: onCar((payload, { car }) => {
    const visit = findVisit(car, payload.visitId)
    if (!visit.ok) return visit
    const { status } = visit.value
    if (!FOLLOWS[status].includes(payload.status))
      return refuse(
        'not-now',
        `A visit that is ${status} cannot become ${payload.status}.`,
        FOLLOWS[status].length > 0 ? `It may become ${FOLLOWS[status].join(' or ')}.` : 'Open a new visit.',
      )
    return (
      (payload.status === 'finished' ? unfinishedRefusal(car) : null) ??
      (payload.status === 'delivered' ? awayRefusal(car) : null) ??
      (payload.status === 'not taken on' ? notTakenOnRefusal(car, payload.reason) : null) ??
      record(fact('visitStatusSet', payload))
    )
  }),

  setSafety: onCar((payload) => record(fact('safetySet', payload))),

  addDimension: onCar(
    (payload, { car }) =>
      refuseIf(
        car.dimensions.has(payload.dimensionId),
        'already',
        'This dimension is known already.',
        'Read it again instead.',
      ) ?? record(fact('dimensionAdded', payload)),
  ),

  setDimensionTarget: onCar(
    (payload, context) =>
      dimensionRefusal(context, payload.dimensionId) ?? record(fact('dimensionTargetSet', payload)),
  ),

  readDimension: onCar(
    (payload, context) =>
      dimensionRefusal(context, payload.dimensionId) ?? record(fact('dimensionRead', payload)),
  ),

  addNote: onCar((payload) => record(fact('noted', payload))),
}

const FOLLOWS: Readonly<Record<VisitStatus, readonly VisitStatus[]>> = {
  enquired: ['agreed', 'in work', 'not taken on'],
  agreed: ['in work', 'enquired', 'not taken on'],
  'in work': ['paused', 'finished'],
  paused: ['in work'],
  finished: ['in work', 'delivered'],
  delivered: [],
  'not taken on': ['enquired'],
}

const shellRefusal = ({ car, others }: DecideContext, shellNumber: string): Refused | null => {
  const owner = others.shellNumbers.get(shellNumber)
  return refuseIf(
    owner !== undefined && owner !== car?.id,
    'already',
    `Shell number ${shellNumber} is taken by ${(owner && others.carNames.get(owner)) ?? 'another car'}.`,
    'Give another shell number, or open that car.',
  )
}

const ownerRefusal = (
  context: DecideContext,
  visit: { readonly ownerId: PartyId; readonly insurerId: PartyId | null },
): Refused | null =>
  firstRefusal(
    refuseIf(
      kindOfParty(context, visit.ownerId) !== 'owner',
      'unknown',
      'The owner is not known.',
      'Add the owner first.',
    ),
    insurerRefusal(context, visit.insurerId),
  )

const insurerRefusal = (context: DecideContext, insurerId: PartyId | null): Refused | null =>
  refuseIf(
    insurerId !== null && kindOfParty(context, insurerId) !== 'insurer',
    'unknown',
    'The insurer is not known.',
    'Add the insurer first.',
  )

/** Undefined for one that is not known, or was erased. */
const kindOfParty = ({ workshop }: DecideContext, id: PartyId) =>
  workshop.erased.has(id) ? undefined : workshop.parties.get(id)?.kind

/** @param sha256 digest of a photo that the store must hold before a fact names it */
export const photoRefusal = ({ others }: DecideContext, sha256: string): Refused | null =>
  refuseIf(!others.knownPhotos.has(sha256), 'photo', 'The photo has not arrived.', 'Send the photo again.')

const lastVisitRefusal = ({ car }: CarContext): Refused | null => {
  const last = car.currentVisit ? car.visits.get(car.currentVisit) : undefined
  return refuseIf(
    last !== undefined && !isOver(last),
    'not-now',
    `The last visit is ${last?.status}.`,
    'Finish it and deliver the car before it comes back.',
  )
}

const dimensionRefusal = ({ car }: CarContext, id: string): Refused | null =>
  refuseIf(
    ![...car.dimensions.keys()].some((known) => known === id),
    'unknown',
    'This reference dimension is not known.',
    'Add it first.',
  )

const unfinishedRefusal = (car: CarState): Refused | null => {
  const repair = activeRepairs(car).find((each) => !isFinished(each))
  const task = [...car.tasks.values()].find((each) => each.status === 'open')
  const fault = standingFaults(car)[0]
  return firstRefusal(
    refuseIf(
      repair !== undefined,
      'not-now',
      `${repair?.plan.name} is not finished.`,
      'Finish it, or retire it with a reason.',
    ),
    refuseIf(
      task !== undefined,
      'not-now',
      `The task '${task?.plan.name}' is open.`,
      'Sign it, or mark it not needed.',
    ),
    refuseIf(fault !== undefined, 'not-now', `A fault stands: ${fault?.words}.`, 'Clear it first.'),
    underWayRefusal(car),
  )
}

/** What still goes on at the car when a visit ends. */
const underWayRefusal = ({ entries }: CarState): Refused | null => {
  const standing = [...entries.values()].filter(({ gone }) => gone === null)
  return firstRefusal(
    refuseIf(
      standing.some(({ time }) => time.kind === 'running'),
      'not-now',
      'A clock still runs on this car.',
      'Stop it first.',
    ),
    refuseIf(
      standing.some(({ watch }) => watch?.completed === null),
      'not-now',
      'A fire watch on this car is not completed.',
      'Look that nothing smoulders and say so on the Day sheet first.',
    ),
  )
}

const notTakenOnRefusal = (car: CarState, reason: string): Refused | null =>
  firstRefusal(
    refuseIf(
      reason === '',
      'bad-input',
      'A visit that is not taken on has a reason.',
      'Write a few words: the owner went elsewhere, added by mistake.',
    ),
    awayRefusal(car),
    underWayRefusal(car),
  )

const awayRefusal = (car: CarState): Refused | null =>
  refuseIf(openAway(car) !== null, 'not-now', 'The shell is away.', 'Bring it back first.')
