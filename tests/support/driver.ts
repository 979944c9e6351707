import type { CarState, Moment } from '../../domain/car.ts'
import { commandSchema, type CommandKind, type CommandPayload } from '../../domain/commands/command-shapes.ts'
import { decideCommand } from '../../domain/commands/decide-command.ts'
import type { OtherBooking } from '../../domain/commands/decide.ts'
import { FACT_VERSION, type Fact } from '../../domain/facts.ts'
import {
  carIdSchema,
  commandIdSchema,
  partyIdSchema,
  typeIdSchema,
  visitIdSchema,
  type PersonId,
} from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { advanceCar, carFromFacts } from '../../domain/state/car-state.ts'
import { MS_PER_HOUR } from '../../domain/time/zone.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { personId } from './car-builder.ts'
import { repairPlan } from './plans.ts'
import { buildWorkshop } from './workshop-builder.ts'

export type Outcome =
  | { readonly ok: true; readonly facts: readonly Fact[] }
  | { readonly ok: false; readonly refusal: Refusal }

export interface Driver {
  readonly workshop: WorkshopState
  readonly car: CarState
  readonly facts: readonly Fact[]
  now: Moment
  /** Gives a command as the manager, or as `by`, at the clock's time; the clock then goes on by a minute. */
  give<K extends CommandKind>(kind: K, payload: CommandPayload<K>, more?: GiveOptions): Outcome
  /** The same for commands that must be accepted. */
  must<K extends CommandKind>(kind: K, payload: CommandPayload<K>, more?: GiveOptions): readonly Fact[]
}

export interface GiveOptions {
  readonly by?: PersonId
  readonly second?: PersonId
  readonly happened?: Moment
  readonly bookings?: readonly OtherBooking[]
}

const OWNER = partyIdSchema.parse('party-vale')
const CAR = carIdSchema.parse('car-under-test')
export const VISIT = visitIdSchema.parse('visit-first')
/** Wed 4 Mar 2026, 09:00 UTC, a working day of the test workshop. */
export const START = Date.parse('2026-03-04T09:00:00Z')

/**
 * One car in work, driven through the rules alone, without a database: what is decided becomes facts, folded as the
 * host does. Photos named by the digests in `photos` have arrived.
 */
export const createDriver = (workshop = driverWorkshop(), photos: readonly string[] = [PHOTO]): Driver => {
  const facts: Fact[] = []
  let car: CarState | null = null
  const clock = { now: START }

  const append = (kind: Fact['kind'], payload: unknown, by: PersonId, happened: Moment): Fact => {
    const number = facts.length + 1
    const instant = new Date(clock.now).toISOString()
    const visitId =
      kind === 'visitOpened' ? (payload as { visitId: string }).visitId : (car?.currentVisit ?? null)
    const fact = {
      number,
      version: FACT_VERSION,
      carId: CAR,
      visitId,
      by,
      device: null,
      commandId: commandIdSchema.parse(`command-${number}`),
      happened: new Date(happened).toISOString(),
      made: instant,
      recorded: instant,
      kind,
      payload,
    } as Fact
    facts.push(fact)
    return fact
  }

  const give: Driver['give'] = (kind, payload, more = {}) => {
    const by = more.by ?? personId('Mara')
    const happened = more.happened ?? clock.now
    const command = commandSchema.parse({
      id: `command-x${facts.length}`,
      kind,
      carId: CAR,
      seen: null,
      by,
      code: null,
      second: null,
      happened: null,
      made: new Date(clock.now).toISOString(),
      payload,
    })
    const decided = decideCommand(command, {
      now: clock.now,
      happened,
      by,
      second: more.second ?? null,
      device: null,
      workshop,
      car,
      history: facts,
      keptPlan: null,
      namedBy: [],
      learned: null,
      others: {
        shellNumbers: new Map(),
        bookings: more.bookings ?? [],
        standing: new Map(),
        carNames: new Map(),
        entries: car ? [...car.entries.values()].filter((entry) => entry.gone === null) : [],
        knownPhotos: new Set(photos),
      },
    })
    if (!decided.ok) return decided
    const added = decided.value.facts.map((each) => {
      const next = append(each.kind, each.payload, by, happened)
      if (car && each.kind !== 'factVoided') advanceCar(car, [next])
      else car = carFromFacts(facts)
      return next
    })
    clock.now += MS_PER_HOUR / 60
    return { ok: true, facts: added }
  }

  const driver: Driver = {
    workshop,
    facts,
    give,
    must: (kind, payload, more) => {
      const outcome = give(kind, payload, more)
      if (!outcome.ok)
        throw new Error(`${kind} was refused: ${outcome.refusal.message} ${outcome.refusal.next}`)
      return outcome.facts
    },
    get car() {
      if (!car) throw new Error('the car is not added yet')
      return car
    },
    get now() {
      return clock.now
    },
    set now(moment) {
      clock.now = moment
    },
  }
  driver.must('addCar', {
    carId: CAR,
    shellNumber: '0417',
    name: 'Marrick Tourer',
    body: 'tourer',
    year: 1966,
    photo: null,
    visit: {
      visitId: VISIT,
      kind: 'agreed',
      ownerId: OWNER,
      insurerId: null,
      status: 'in work',
      promised: '2026-12-18',
      priority: 1,
      charge: { by: 'hour' },
    },
  })
  return driver
}

/** The digest of a photo that the store holds. */
export const PHOTO = 'a'.repeat(64)

/** The usual test workshop, whose people have every skill the test plans ask for, one owner, one firm and one repair type. */
export const driverWorkshop = (): WorkshopState =>
  buildWorkshop((add) => {
    add('partyAdded', { partyId: OWNER, kind: 'owner' })
    add('partyAdded', { partyId: partyIdSchema.parse('party-firm'), kind: 'firm' })
    add('typeSaved', { typeId: typeIdSchema.parse('type-skin'), version: 1, plan: repairPlan('Usual skin') })
  })
