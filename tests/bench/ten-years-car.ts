/** Over 300 lines because the whole story of one car is told in one place. */
import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import { fact, type NewFact } from '../../domain/facts.ts'
import type { EstimateLine, WorkTarget } from '../../domain/facts/shapes.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  bayIdSchema,
  carIdSchema,
  costIdSchema,
  entryIdSchema,
  findingIdSchema,
  lineIdSchema,
  partyIdSchema,
  readingIdSchema,
  repairIdSchema,
  spendingIdSchema,
  typeIdSchema,
  variationIdSchema,
  visitIdSchema,
  type AttachmentId,
  type CarId,
  type PersonId,
  type RepairId,
  type VisitId,
} from '../../domain/ids.ts'
import { localToInstant, MS_PER_HOUR } from '../../domain/time/zone.ts'
import { layerId, repairPlan } from '../support/plans.ts'
import type { Random } from '../support/random.ts'
import { zone } from '../support/workshop.ts'

/** One car of the ten years: what it is, and how far its story is told. */
export interface TenYearsCar {
  readonly index: number
  readonly carId: CarId
  readonly visitId: VisitId
  readonly repairs: readonly RepairId[]
  readonly targets: readonly GateTarget[]
  entries: number
  photos: number
  passed: number
  /** The latest ones, for a report. */
  shown: AttachmentId[]
}

type GateTarget = Extract<WorkTarget, { readonly kind: 'gate' }>

/** Who works on which local date, and the chance that decides what they do. */
export interface WorkDay {
  readonly people: readonly PersonId[]
  readonly random: Random
  readonly date: string
}

const REPAIRS_A_CAR = 20
/** A little more than 400 and 300, as the last twenty cars are half told. */
const ENTRIES_A_CAR = 410
const PHOTOS_A_CAR = 307
export const TYPES = 12
export const BAYS = 12

export const typeOf = (index: number) => typeIdSchema.parse(`type-kind-${index % TYPES}`)
export const ownerOf = (car: number) => partyIdSchema.parse(`party-owner-${car}`)
export const bayOf = (index: number) => bayIdSchema.parse(`bay-number-${index % BAYS}`)

export function tenYearsCar(index: number): TenYearsCar {
  const repairs = Array.from({ length: REPAIRS_A_CAR }, (_, repair) =>
    repairIdSchema.parse(`repair-${index}-${repair}`),
  )
  return {
    index,
    carId: carIdSchema.parse(`car-number-${index}`),
    visitId: visitIdSchema.parse(`visit-of-${index}`),
    repairs,
    targets: inOrderOfWork(repairs),
    entries: 0,
    photos: 0,
    passed: 0,
    shown: [],
  }
}

/** Each repair gate by gate, a later repair half a gate behind the one before: some are done while others are not opened. */
function inOrderOfWork(repairs: readonly RepairId[]): readonly GateTarget[] {
  return repairs
    .flatMap((repairId, repair) =>
      GATES.map((gate, order) => ({
        due: order + repair / 2,
        target: { kind: 'gate' as const, repairId, gate },
      })),
    )
    .toSorted((a, b) => a.due - b.due)
    .map(({ target }) => target)
}

/** The car with its repairs, its place and its accepted estimate. */
export function comeIn(car: TenYearsCar, { random }: WorkDay): readonly NewFact[] {
  const { index, carId, visitId, repairs } = car
  const bayId = bayOf(index)
  return [
    fact('carAdded', { carId, shellNumber: `L-${index}`, name: `Car ${index}`, body: 'saloon', year: 1964 }),
    fact('visitOpened', {
      visitId,
      kind: 'agreed',
      ownerId: ownerOf(index),
      insurerId: null,
      status: 'in work',
      promised: null,
      priority: 1 + (index % 3),
      charge: { by: 'hour' },
    }),
    fact('shellMoved', { bayId, fixture: 'stands', note: '' }),
    ...(['bracing', 'battery', 'fuel'] as const).map((item) =>
      fact('safetySet', { item, stands: true, note: '' }),
    ),
    ...repairs.map((repairId, repair) =>
      fact('repairAdded', {
        repairId,
        type: { typeId: typeOf(repair), version: 1 },
        plan: planOf(repair),
        payer: 'owner',
      }),
    ),
    ...[1, 5, 9, 13].map((under) =>
      fact('coverLinked', { over: at(repairs, under + 1), under: at(repairs, under) }),
    ),
    ...agreement(car, random),
  ]
}

function agreement({ index, visitId, targets, repairs }: TenYearsCar, random: Random): readonly NewFact[] {
  const lines = targets.map((target, line): EstimateLine => {
    const likely = 0.5 + Math.round(random.next() * 14) / 4
    return {
      lineId: lineIdSchema.parse(`line-${index}-${line}`),
      target,
      hours: { shortest: likely / 2, likely, longest: likely * 2.5 },
      agreed: likely,
      payer: 'owner',
    }
  })
  const costs = Array.from({ length: 5 }, (_, cost) => ({
    costId: costIdSchema.parse(`cost-${index}-${cost}`),
    repairId: at(repairs, cost),
    kind: 'material' as const,
    name: `Sheet ${cost + 1}`,
    amount: 4_000 + 500 * cost,
    payer: 'owner' as const,
  }))
  return [
    fact('estimateSet', { visitId, lines }),
    fact('costsSet', { visitId, costs }),
    fact('estimateAccepted', {
      visitId,
      payer: 'owner',
      lineIds: lines.map(({ lineId }) => lineId),
      costIds: costs.map(({ costId }) => costId),
      how: 'letter',
      note: '',
    }),
    fact('bandsStated', {
      visitId,
      when: 'accepted',
      repairs: repairs.map((repairId) => ({
        repairId,
        estimated: 18,
        p50: 20,
        p80: 26,
        p90: 31,
        method: 'prior' as const,
        rests: { own: 0, others: 0 },
      })),
      car: { estimated: 360, p50: 400, p80: 440, p90: 465 },
    }),
  ]
}

const planOf = (repair: number) =>
  repairPlan(`Repair ${repair}`, { zone: { side: repair % 2 === 0 ? 'left' : 'right', place: 'rear' } })

/** What is done on one day: entries, photos and gates, up to the share of the visit that is over by its evening. */
export function workOn(car: TenYearsCar, day: WorkDay, share: number): readonly NewFact[] {
  const facts: NewFact[] = []
  for (; car.entries < Math.floor(share * ENTRIES_A_CAR); car.entries += 1) facts.push(entryOn(car, day))
  for (; car.photos < Math.floor(share * PHOTOS_A_CAR); car.photos += 1) facts.push(photoOn(car, day))
  for (; car.passed < Math.floor(share * car.targets.length); car.passed += 1)
    facts.push(...passOn(car, day), ...nowAndThen(car, day))
  return facts
}

const targetNow = ({ targets, passed }: TenYearsCar, ahead: number): GateTarget =>
  at(targets, Math.min(targets.length - 1, passed + ahead))

function entryOn(car: TenYearsCar, { random, people, date }: WorkDay): NewFact {
  const start = momentOn(date, 8 + random.between(0, 5))
  return fact('timeLogged', {
    entryId: entryIdSchema.parse(`entry-${car.index}-${car.entries}`),
    personId: random.pick(people),
    on: { kind: 'work', targets: [targetNow(car, random.between(0, 2))] },
    hotWork: false,
    cause: null,
    time: {
      kind: 'span',
      start: new Date(start).toISOString(),
      end: new Date(start + (0.25 + random.next()) * MS_PER_HOUR).toISOString(),
    },
    shares: null,
    note: '',
    watchMinutes: null,
  })
}

/** A digest that no other photo has; there is no file behind it. */
export const digestOf = (car: number, photo: number): string =>
  `${car.toString(16).padStart(8, '0')}${photo.toString(16).padStart(8, '0')}`.padStart(64, 'a')

function photoOn(car: TenYearsCar, { random, date }: WorkDay): NewFact {
  const { repairId, gate } = targetNow(car, random.between(0, 2))
  const attachmentId = attachmentIdSchema.parse(`photo-${car.index}-${car.photos}`)
  car.shown = [...car.shown.slice(-5), attachmentId]
  return fact('photoAttached', {
    attachmentId,
    sha256: digestOf(car.index, car.photos),
    taken: new Date(momentOn(date, 14)).toISOString(),
    caption: `${gate}, as it was on the day`,
    serves: [{ what: 'gate', repairId, gate, shows: 'work', layerId: null }],
  })
}

function passOn(car: TenYearsCar, { random, people }: WorkDay): readonly NewFact[] {
  const { repairId, gate } = targetNow(car, 0)
  return [
    ...beforePassing(car, repairId, gate, random),
    fact('gatePassed', {
      repairId,
      gate,
      did: [random.pick(people)],
      second: null,
      asked: ASKS_NOTHING,
      evidence: { attachments: car.shown.slice(-1), readings: [] },
      released: [],
      coat: gate === 'painted' ? 'protective' : null,
      note: '',
    }),
  ]
}

function beforePassing(
  { repairs }: TenYearsCar,
  repairId: RepairId,
  gate: Gate,
  random: Random,
): readonly NewFact[] {
  if (gate === 'opened') return [fact('outsideGraded', { repairId, grade: 'surface', note: '' })]
  if (gate !== 'assessed') return []
  const name = `Repair ${repairs.indexOf(repairId)}`
  return ['inner', 'closing'].map((layer) =>
    fact('layerGraded', {
      repairId,
      layerId: layerId(name, layer),
      grade: random.pick(['surface', 'pitted', 'pitted', 'holed'] as const),
      judgedBy: '',
      remainingMm: 0.8,
      decision: 'patch',
    }),
  )
}

/** Findings, notes, readings, bills and variations, each so many gates apart. */
function nowAndThen(car: TenYearsCar, { date }: WorkDay): readonly NewFact[] {
  const { index, passed, visitId } = car
  const { repairId, gate } = targetNow(car, 0)
  const id = `${index}-${passed}`
  return [
    ...(passed % 30 === 10
      ? [
          fact('findingAdded', {
            findingId: findingIdSchema.parse(`finding-${id}`),
            repairId,
            layerId: null,
            kind: 'corrosion',
            grade: 'holed',
            extent: 'along the seam',
            needs: 'a new strip',
            attachments: car.shown.slice(-2),
          }),
        ]
      : []),
    ...(passed % 8 === 3
      ? [
          fact('conditionsRead', {
            readingId: readingIdSchema.parse(`reading-${id}`),
            repairIds: [repairId],
            gate,
            airC: 19,
            humidityPercent: 55,
            steelC: 18,
          }),
        ]
      : []),
    ...(passed % 16 === 5 ? [fact('noted', { text: `What was said on ${date}` })] : []),
    ...(passed % 32 === 7
      ? [
          fact('costSpent', {
            spendingId: spendingIdSchema.parse(`spending-${id}`),
            visitId,
            repairId,
            costId: null,
            kind: 'material',
            name: 'Sheet',
            date,
            amount: 3_900,
            payer: 'owner',
          }),
        ]
      : []),
    ...variationAt(car),
  ]
}

/** Raised on a gate to come, answered ten gates later, once in three declined and then paid by the workshop. */
function variationAt(car: TenYearsCar): readonly NewFact[] {
  const { index, passed, visitId, targets } = car
  const variationOf = (raised: number) => variationIdSchema.parse(`variation-${index}-${raised}`)
  if (passed % 60 === 40)
    return [
      fact('variationRaised', {
        variationId: variationOf(passed),
        visitId,
        payer: 'owner',
        title: 'More to do',
        why: 'It was found when the panel came off.',
        ifNot: '',
        findings: [],
        attachments: [],
        lines: [{ target: targetNow(car, targets.length), hours: 3, low: 2, high: 5 }],
        costs: [],
      }),
    ]
  if (passed % 60 !== 50 || passed < 50) return []
  const variationId = variationOf(passed - 10)
  const decision = index % 3 === 0 ? 'declined' : 'accepted'
  return [
    fact('variationDecided', { variationId, decision, changed: null, how: 'call', note: '' }),
    ...(decision === 'declined'
      ? [fact('declinedSettled', { variationId, choice: 'workshop pays', reason: 'It must be done.' })]
      : []),
  ]
}

const instants = new Map<string, number>()

/** Epoch ms of a full hour on a local date. */
export function momentOn(date: string, hour: number): number {
  const midnight = instants.get(date) ?? localToInstant(date, '00:00', zone)
  instants.set(date, midnight)
  return midnight + hour * MS_PER_HOUR
}

function at<T>(items: readonly T[], index: number): T {
  const item = items[index]
  if (item === undefined) throw new Error(`There are ${items.length}, not ${index + 1}.`)
  return item
}
