/** What happens in the told weeks, in one line each. */
import { Buffer } from 'node:buffer'
import type { PayloadOf } from '../../../domain/facts.ts'
import type { Gate } from '../../../domain/gates.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  findingIdSchema,
  fitGroupIdSchema,
  holdIdSchema,
  partIdSchema,
  partyIdSchema,
  readingIdSchema,
} from '../../../domain/ids.ts'
import type { OwnerWeek } from '../../../domain/report/owner-week-shapes.ts'
import type { PlannedFinish, WeekExpected } from '../../../domain/report/week-expected.ts'
import {
  buildCar,
  type CarBuilder,
  onGate,
  onTask,
  personId,
  repairId,
  taskId,
  variationId,
  visitId,
} from '../car-builder.ts'
import { choicesOf, reportOn } from '../owner-report.ts'
import { layerId, slug } from '../plans.ts'

/** One told week. */
export interface WeekStory {
  readonly name: string
  readonly report: OwnerWeek
  /** The same in German. */
  readonly german: OwnerWeek
  /** Everything that is written in its facts. */
  readonly typed: readonly string[]
  /** The manager had the technicians named. */
  readonly names: boolean
}

export const story = (
  name: string,
  car: CarBuilder,
  more: Parameters<typeof reportOn>[1] = {},
): WeekStory => {
  const choices = more.choices ?? choicesOf()
  return {
    name,
    report: reportOn(car, more),
    german: reportOn(car, { ...more, choices: { ...choices, language: 'de' } }),
    typed: [choices.words, ...car.facts().flatMap(({ payload }) => stringsIn(payload))],
    names: choices.names,
  }
}

const stringsIn = (value: unknown): readonly string[] =>
  typeof value === 'string'
    ? [value]
    : typeof value === 'object' && value !== null
      ? Object.values(value).flatMap(stringsIn)
      : []

/** A car in work since Mon 2 Nov, its repairs agreed at 2 h a gate, Tuesday of the told week come. */
export function carWith(...repairs: readonly string[]): CarBuilder {
  const car = buildCar()
  for (const name of repairs) car.repair(name).agree(name)
  return car.at('2026-11-24T09:00')
}

export const grade = (
  car: CarBuilder,
  repair: string,
  layer: 'inner' | 'closing',
  over: Partial<Omit<PayloadOf<'layerGraded'>, 'repairId' | 'layerId'>> = {},
) =>
  car.add('layerGraded', {
    repairId: repairId(repair),
    layerId: layerId(repair, layer),
    grade: 'holed',
    judgedBy: '',
    remainingMm: null,
    decision: 'patch',
    ...over,
  })

export const find = (
  car: CarBuilder,
  repair: string,
  id: string,
  over: Partial<Omit<PayloadOf<'findingAdded'>, 'repairId' | 'findingId'>> = {},
) =>
  car.add('findingAdded', {
    findingId: findingIdSchema.parse(`finding-${id}`),
    repairId: repairId(repair),
    layerId: layerId(repair, 'inner'),
    kind: 'corrosion',
    grade: 'holed',
    extent: '120 mm along the flange',
    needs: 'a new flange, 150 mm long',
    attachments: [],
    ...over,
  })

export const hoursOn = (
  car: CarBuilder,
  repair: string,
  gate: Gate,
  hours: number,
  person = 'Joss',
  date = '2026-11-23',
) =>
  car.log(`${slug(repair)}-${gate}-${person.toLowerCase()}-${date}`, person, { kind: 'day', date, hours }, [
    onGate(repair, gate),
  ])

export const hoursOnTask = (car: CarBuilder, task: string, hours: number, person = 'Ines') =>
  car.log(`${slug(task)}-${person.toLowerCase()}`, person, { kind: 'day', date: '2026-11-23', hours }, [
    onTask(task),
  ])

export const sign = (car: CarBuilder, task: string, ...people: readonly string[]) =>
  car.add('taskSigned', { taskId: taskId(task), did: people.map(personId), note: '' })

export const reopen = (
  car: CarBuilder,
  repair: string,
  gate: Gate,
  cause: PayloadOf<'gateReopened'>['cause'],
  reason: string,
) => car.add('gateReopened', { repairId: repairId(repair), gate, cause, reason })

export const setStatus = (car: CarBuilder, status: PayloadOf<'visitStatusSet'>['status'], reason = '') =>
  car.add('visitStatusSet', { visitId: visitId('first'), status, reason })

export const agreeOn = (car: CarBuilder, over: Partial<PayloadOf<'visitChanged'>>) =>
  car.add('visitChanged', {
    visitId: visitId('first'),
    promised: '2026-12-18',
    priority: 1,
    charge: { by: 'hour' },
    ...over,
  })

export const hold = (car: CarBuilder, id: string, over: Partial<PayloadOf<'holdSet'>> = {}) =>
  car.add('holdSet', {
    holdId: holdIdSchema.parse(`hold-${id}`),
    scope: { kind: 'car' },
    words: 'The inspector looks at it first',
    clears: 'the inspector',
    expected: '2026-12-02',
    ...over,
  })

export const sendAway = (car: CarBuilder, over: Partial<PayloadOf<'shellSentAway'>> = {}) =>
  car.add('shellSentAway', {
    awayId: awayIdSchema.parse('away-dipping'),
    firmId: partyIdSchema.parse('party-dippers'),
    what: 'dipping',
    from: '2026-11-24',
    expected: '2026-12-04',
    ...over,
  })

export const bringBack = (car: CarBuilder, over: Partial<PayloadOf<'shellReturned'>> = {}) =>
  car.add('shellReturned', {
    awayId: awayIdSchema.parse('away-dipping'),
    bayId: 'bay-id-1-metalwork' as never,
    fixture: 'wheels',
    tookBack: [],
    uncovered: '',
    reason: 'the bath strips primer and sealer',
    ...over,
  })

export const needPart = (car: CarBuilder, name: string, repair: string, gate: Gate) =>
  car.add('partNeeded', {
    partId: partIdSchema.parse(`part-${slug(name)}`),
    repairId: repairId(repair),
    gate,
    name,
  })

export const movePart = (
  car: CarBuilder,
  name: string,
  state: PayloadOf<'partMoved'>['state'],
  expected: string | null = null,
  reason = '',
) => car.add('partMoved', { partId: partIdSchema.parse(`part-${slug(name)}`), state, expected, reason })

export const group = (car: CarBuilder, name: string, ...members: readonly string[]) =>
  car.add('fitGroupSet', {
    groupId: fitGroupIdSchema.parse(`group-${slug(name)}`),
    name,
    members: members.map(repairId),
    hungParts: [],
    edges: [],
  })

export const fitUp = (car: CarBuilder, id: string, name: string, good: boolean, note = '') =>
  car.add('fitUpRecorded', {
    readingId: readingIdSchema.parse(`fit-up-${id}`),
    groupId: fitGroupIdSchema.parse(`group-${slug(name)}`),
    kind: 'full',
    readings: [],
    good,
    note,
  })

type Raised = PayloadOf<'variationRaised'>

export const ask = (
  car: CarBuilder,
  title: string,
  line: Raised['lines'][number],
  over: Partial<Omit<Raised, 'title' | 'lines'>> = {},
) =>
  car.add('variationRaised', {
    variationId: variationId(title),
    visitId: visitId('first'),
    payer: 'owner',
    title,
    why: 'The flange behind the closing plate is holed.',
    ifNot: 'we close it as it is and say so in the file',
    findings: [],
    attachments: [],
    lines: [line],
    costs: [],
    ...over,
  })

export const settle = (
  car: CarBuilder,
  title: string,
  choice: PayloadOf<'declinedSettled'>['choice'],
  reason: string,
) => car.add('declinedSettled', { variationId: variationId(title), choice, reason })

export const closeAsFound = (
  car: CarBuilder,
  repair: string,
  over: Partial<PayloadOf<'closedAsFound'>> = {},
) =>
  car.add('closedAsFound', {
    repairId: repairId(repair),
    variationId: null,
    attachments: [],
    protection: 'cavity wax, sprayed in twice',
    answer: 'leave it for now',
    cautionShown: true,
    ...over,
  })

export const shoot = (
  car: CarBuilder,
  id: string,
  repair: string,
  gate: Gate,
  shows: Extract<PayloadOf<'photoAttached'>['serves'][number], { what: 'gate' }>['shows'],
  caption = '',
) =>
  car.add('photoAttached', {
    attachmentId: attachmentIdSchema.parse(`photo-${id}`),
    sha256: Buffer.from(id).toString('hex').padEnd(64, '0').slice(0, 64),
    taken: null,
    caption,
    serves: [{ what: 'gate', repairId: repairId(repair), gate, shows, layerId: null }],
  })

/** By local dates; it knows of everything, or of nothing that came in this week. */
export const finish = (early: string, late: string, revision = 100_000): PlannedFinish => ({
  revision,
  range: { early: Date.parse(`${early}T16:00Z`), late: Date.parse(`${late}T16:00Z`) },
  faults: [],
})

export const expecting = (more: Partial<WeekExpected> = {}): WeekExpected => ({
  hours: null,
  finish: finish('2026-12-11', '2026-12-17'),
  before: finish('2026-12-11', '2026-12-17', 0),
  elsewhere: [],
  ...more,
})

export const likely = (p50: number, p80: number): WeekExpected['hours'] => ({
  all: { p50, p80 },
  charged: { p50, p80 },
})
