import { z } from 'zod'
import { workTargetSchema } from '../facts/shapes.ts'
import { bayIdSchema, bookingIdSchema, carIdSchema, personIdSchema, visitIdSchema } from '../ids.ts'

/** Why work starts when it does and not before: what held it last. */
const START_REASONS = [
  'now',
  'begun',
  'order',
  'curing',
  'people',
  'bay',
  'move',
  'support',
  'fixture',
  'parts',
  'decision',
  'hold',
  'away',
  'pinned',
  'fire watch',
  'hours',
] as const

/** Epoch ms, UTC. */
const momentSchema = z.int()

const plannedWorkSchema = z.strictObject({
  carId: carIdSchema,
  visitId: visitIdSchema,
  target: workTargetSchema,
  start: momentSchema,
  finish: momentSchema,
  people: z.array(personIdSchema),
  bayId: bayIdSchema.nullable(),
  /** Person-hours that were left when the plan was made. */
  hours: z.number(),
  begun: z.boolean(),
  pinned: z.strictObject({ people: z.boolean(), day: z.boolean() }),
  why: z.strictObject({ reason: z.enum(START_REASONS), words: z.string() }),
})

const plannedStaySchema = z.strictObject({
  carId: carIdSchema,
  bayId: bayIdSchema,
  from: momentSchema,
  to: momentSchema,
  /** The manager's booking that it keeps. */
  bookingId: bookingIdSchema.nullable(),
})

const plannedMoveSchema = z.strictObject({
  carId: carIdSchema,
  from: bayIdSchema.nullable(),
  to: bayIdSchema,
  start: momentSchema,
  finish: momentSchema,
  people: z.array(personIdSchema),
})

const plannedCarSchema = z.strictObject({
  carId: carIdSchema,
  visitId: visitIdSchema,
  /** Local date. */
  promised: z.iso.date().nullable(),
  priority: z.int(),
  /** As planned with mean hours; null when part of its work could not be planned. */
  finish: momentSchema.nullable(),
  /** Not exceeded with that likelihood; null until the likelihoods are reckoned. */
  finish50: momentSchema.nullable(),
  finish80: momentSchema.nullable(),
  /** What drives its lateness most: share of the spread of its finish, largest first, at most three. */
  drivers: z.array(z.strictObject({ name: z.string(), share: z.number() })),
})

/** What could not be planned, or not as pinned; the rest is planned. */
const PLAN_FAULTS = [
  'circle',
  'no skill',
  'no bay',
  'no hours',
  'pin in the past',
  'pins clash',
  'bad hours',
  'not braced',
  'no fixture',
  'too long',
  'not authorised',
  'closed over',
  'in the way',
] as const

export const planFaultSchema = z.strictObject({
  code: z.enum(PLAN_FAULTS),
  carId: carIdSchema.nullable(),
  words: z.string(),
  /** What to do next. */
  next: z.string(),
})

/** The plan in domain terms, as people are given it and as it is kept. */
export const planSchema = z.strictObject({
  madeAt: momentSchema,
  work: z.array(plannedWorkSchema),
  stays: z.array(plannedStaySchema),
  moves: z.array(plannedMoveSchema),
  cars: z.array(plannedCarSchema),
  faults: z.array(planFaultSchema),
  score: z.strictObject({
    /** Hours late, each car's times its weight. */
    latenessHours: z.number(),
    moves: z.int(),
    end: momentSchema,
    changes: z.int(),
  }),
})

export type Plan = z.infer<typeof planSchema>
export type PlannedWork = z.infer<typeof plannedWorkSchema>
export type PlannedStay = z.infer<typeof plannedStaySchema>
export type PlannedMove = z.infer<typeof plannedMoveSchema>
export type PlannedCar = z.infer<typeof plannedCarSchema>
export type PlanFault = z.infer<typeof planFaultSchema>
export type StartReason = (typeof START_REASONS)[number]

/** What the manager asks 'what if' about. */
export const whatIfSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('person off'),
    personId: personIdSchema,
    from: z.iso.date(),
    to: z.iso.date(),
  }),
  z.strictObject({
    kind: z.literal('part late'),
    carId: carIdSchema,
    partId: z.string(),
    expected: z.iso.date(),
  }),
  /** A car with the repairs of an existing one, at work from a date. */
  z.strictObject({
    kind: z.literal('new car'),
    like: carIdSchema,
    name: z.string(),
    arrives: z.iso.date(),
    promised: z.iso.date().nullable(),
    priority: z.int().min(1).max(3),
  }),
  /** Longer days, or a Saturday: these people work these spans on top of their own on these days. */
  z.strictObject({
    kind: z.literal('overtime'),
    people: z.array(personIdSchema).min(1),
    from: z.iso.date(),
    to: z.iso.date(),
    /** 1 Monday to 7 Sunday. */
    weekdays: z.array(z.int().min(1).max(7)).min(1),
    span: z.strictObject({ from: z.string(), to: z.string() }),
  }),
  z.strictObject({ kind: z.literal('one more bay'), name: z.string(), kinds: z.array(z.string()).min(1) }),
  /** A booking tried elsewhere: what dragging it would do. */
  z.strictObject({
    kind: z.literal('booking'),
    carId: carIdSchema,
    bookingId: bookingIdSchema,
    bayId: bayIdSchema,
    from: z.iso.date(),
    to: z.iso.date(),
  }),
  /** Work given to somebody, or put on a day. */
  z.strictObject({
    kind: z.literal('pin'),
    carId: carIdSchema,
    target: workTargetSchema,
    people: z.array(personIdSchema),
    day: z.iso.date().nullable(),
  }),
])
export type WhatIf = z.infer<typeof whatIfSchema>
