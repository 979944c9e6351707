import { ASKS_NOTHING } from '../../domain/catalogue/type-plan.ts'
import type { CarState } from '../../domain/car.ts'
import { fact, type Fact, type FactKind, FACT_VERSION, type PayloadOf } from '../../domain/facts.ts'
import type { EstimateLine, TaskPlan, WorkTarget } from '../../domain/facts/shapes.ts'
import { type Gate, gateOrder, GATES } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  carIdSchema,
  commandIdSchema,
  entryIdSchema,
  lineIdSchema,
  partyIdSchema,
  personIdSchema,
  repairIdSchema,
  taskIdSchema,
  variationIdSchema,
  visitIdSchema,
} from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { repairPlan, type RepairPlanOver, slug, taskPlan } from './plans.ts'
import { sure } from './varied.ts'

export const repairId = (name: string) => repairIdSchema.parse(`repair-${slug(name)}`)
export const taskId = (name: string) => taskIdSchema.parse(`task-${slug(name)}`)
export const personId = (name: string) => personIdSchema.parse(`person-${slug(name)}`)
export const variationId = (name: string) => variationIdSchema.parse(`variation-${slug(name)}`)
export const visitId = (name: string) => visitIdSchema.parse(`visit-${slug(name)}`)
export const entryId = (name: string) => entryIdSchema.parse(`entry-${slug(name)}`)
export const ownerId = partyIdSchema.parse('party-owner')

export const onGate = (repair: string, gate: Gate): WorkTarget => ({
  kind: 'gate',
  repairId: repairId(repair),
  gate,
})
export const onTask = (task: string): WorkTarget => ({ kind: 'task', taskId: taskId(task) })

/** Hours on a span of one local day in UTC: `hand('Joss', '2026-11-23', '08:00', '12:00', onGate(...))`. */
type Time = PayloadOf<'timeLogged'>['time']

/** Facts of one car, built up sentence by sentence; every fact happens a minute after the one before. */
export interface CarBuilder {
  /** Later facts happen from this moment on (UTC, '2026-11-23T08:00'). */
  readonly at: (moment: string) => CarBuilder
  readonly by: (person: string) => CarBuilder
  readonly add: <K extends FactKind>(kind: K, payload: PayloadOf<K>) => CarBuilder
  readonly repair: (name: string, over?: RepairPlanOver) => CarBuilder
  readonly task: (name: string, over?: Partial<TaskPlan>) => CarBuilder
  /** Estimate lines of the given hours, accepted at once unless said otherwise. */
  readonly estimate: (
    target: WorkTarget,
    hours: number,
    more?: { readonly accepted?: boolean; readonly payer?: EstimateLine['payer'] },
  ) => CarBuilder
  /** Accepts the plan's hours of every gate of a repair. */
  readonly agree: (repair: string, hoursPerGate?: number) => CarBuilder
  readonly cover: (over: string, under: string) => CarBuilder
  /** Passes the gates in the repair's order up to this one, those open. */
  readonly passTo: (repair: string, gate: Gate) => CarBuilder
  readonly pass: (repair: string, gate: Gate) => CarBuilder
  readonly notNeeded: (repair: string, gate: Gate) => CarBuilder
  readonly reopen: (repair: string, gate: Gate) => CarBuilder
  readonly log: (
    id: string,
    person: string,
    time: Time,
    targets: readonly WorkTarget[],
    more?: Partial<Pick<PayloadOf<'timeLogged'>, 'shares' | 'cause' | 'hotWork'>>,
  ) => CarBuilder
  readonly clock: (id: string, person: string, start: string, targets: readonly WorkTarget[]) => CarBuilder
  readonly vary: (
    title: string,
    lines: readonly { readonly target: WorkTarget; readonly hours: number }[],
  ) => CarBuilder
  readonly decide: (title: string, decision: 'accepted' | 'declined') => CarBuilder
  readonly visit: (name: string, over?: Partial<PayloadOf<'visitOpened'>>) => CarBuilder
  readonly photo: (id: string, serves: PayloadOf<'photoAttached'>['serves']) => CarBuilder
  readonly facts: () => readonly Fact[]
  readonly car: () => CarState
}

/** A saloon in work under the visit 'first', stated by the manager Mara from Mon 2 Nov 2026, 08:00 UTC. */
export function buildCar(over: Partial<PayloadOf<'carAdded'>> = {}): CarBuilder {
  const facts: Fact[] = []
  let moment = Date.parse('2026-11-02T08:00:00Z')
  let by = personId('Mara')
  let visit = visitId('first')
  const carId = over.carId ?? carIdSchema.parse('car-dunmere')

  const builder: CarBuilder = {
    at: (text) => {
      moment = Date.parse(`${text}:00Z`)
      return builder
    },
    by: (person) => {
      by = personId(person)
      return builder
    },
    add: (kind, payload) => {
      const instant = new Date(moment).toISOString()
      const number = facts.length + 1
      facts.push({
        number,
        version: FACT_VERSION,
        carId,
        visitId: visit,
        by,
        device: null,
        commandId: commandIdSchema.parse(`command-${number}`),
        happened: instant,
        made: instant,
        recorded: instant,
        ...fact(kind, payload),
      } as Fact)
      moment += 60_000
      return builder
    },
    repair: (name, plan) =>
      builder.add('repairAdded', {
        repairId: repairId(name),
        type: null,
        plan: repairPlan(name, plan),
        payer: 'owner',
      }),
    task: (name, plan) => builder.add('taskAdded', { taskId: taskId(name), plan: taskPlan(name, plan) }),
    estimate: (target, hours, { accepted = true, payer = 'owner' } = {}) => {
      const lineId = lineIdSchema.parse(`line-${facts.length}-${visit}`)
      const points = { shortest: hours, likely: hours, longest: hours }
      const line = { lineId, target, hours: points, agreed: hours, payer }
      builder.add('estimateSet', { visitId: visit, lines: [line] })
      if (accepted) {
        const answer = { how: 'letter' as const, note: '' }
        builder.add('estimateAccepted', { visitId: visit, payer, lineIds: [lineId], costIds: [], ...answer })
      }
      return builder
    },
    agree: (name, hoursPerGate = 2) => {
      for (const gate of GATES) builder.estimate(onGate(name, gate), hoursPerGate)
      return builder
    },
    cover: (above, below) => builder.add('coverLinked', { over: repairId(above), under: repairId(below) }),
    passTo: (name, last) => {
      const repair = builder.car().repairs.get(repairId(name))!
      const order = gateOrder(repair.plan)
      for (const gate of order.slice(0, order.indexOf(last) + 1))
        if (repair.gates[gate].status === 'open') builder.pass(name, gate)
      return builder
    },
    pass: (name, gate) =>
      builder.add('gatePassed', {
        repairId: repairId(name),
        gate,
        did: [by],
        second: null,
        asked: ASKS_NOTHING,
        evidence: { attachments: [], readings: [] },
        released: [],
        coat: gate === 'painted' ? 'protective' : null,
        note: '',
      }),
    notNeeded: (name, gate) =>
      builder.add('gateNotNeeded', { repairId: repairId(name), gate, reason: 'nothing to do there' }),
    reopen: (name, gate) =>
      builder.add('gateReopened', {
        repairId: repairId(name),
        gate,
        cause: 'fit',
        reason: 'the edge stands proud',
      }),
    log: (id, person, time, targets, { shares = null, cause = null, hotWork = false } = {}) =>
      builder.add('timeLogged', {
        entryId: entryId(id),
        personId: personId(person),
        on: { kind: 'work', targets: [...targets] },
        hotWork,
        cause,
        time,
        shares,
        note: '',
        watchMinutes: null,
      }),
    clock: (id, person, start, targets) =>
      builder.add('clockStarted', {
        entryId: entryId(id),
        personId: personId(person),
        on: { kind: 'work', targets: [...targets] },
        hotWork: false,
        cause: null,
        start: `${start}:00Z`,
      }),
    vary: (title, lines) =>
      builder.add('variationRaised', {
        variationId: variationId(title),
        visitId: visit,
        payer: 'owner',
        title,
        why: 'found behind the closing plate',
        ifNot: 'it stays as found',
        findings: [],
        attachments: [],
        lines: lines.map(({ target, hours }) => sure(target, hours)),
        costs: [],
      }),
    decide: (title, decision) =>
      builder.add('variationDecided', {
        variationId: variationId(title),
        decision,
        changed: null,
        how: 'call',
        note: '',
      }),
    visit: (name, more = {}) => {
      visit = visitId(name)
      return builder.add('visitOpened', {
        visitId: visit,
        kind: 'agreed',
        ownerId,
        insurerId: null,
        status: 'in work',
        promised: '2026-12-18',
        priority: 1,
        charge: { by: 'hour' },
        ...more,
      })
    },
    photo: (id, serves) =>
      builder.add('photoAttached', {
        attachmentId: attachmentIdSchema.parse(`photo-${id}`),
        sha256: slug(id)
          .replace(/[^a-f0-9]/g, '0')
          .padEnd(64, '0'),
        taken: null,
        caption: id,
        serves,
      }),
    facts: () => facts,
    car: () => carFromFacts(facts)!,
  }
  return builder
    .add('carAdded', {
      carId,
      shellNumber: '0412',
      name: 'Dunmere Saloon',
      body: 'saloon',
      year: 1964,
      ...over,
    })
    .visit('first')
}
