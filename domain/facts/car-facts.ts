import { z } from 'zod'
import { gateSchema } from '../gates.ts'
import {
  carIdSchema,
  dimensionIdSchema,
  fitGroupIdSchema,
  partyIdSchema,
  readingIdSchema,
  repairIdSchema,
  taskIdSchema,
  typeIdSchema,
  visitIdSchema,
} from '../ids.ts'
import {
  dateSchema,
  fitGroupPlanSchema,
  fixtureSchema,
  nameSchema,
  noteSchema,
  optionalNoteSchema,
  payerSchema,
  reasonSchema,
  repairPlanSchema,
  sha256Schema,
  sideSchema,
  taskPlanSchema,
  hoursSchema,
} from './shapes.ts'

export const BODIES = ['saloon', 'tourer', 'estate', 'van', 'roadster', 'coupe', 'pick-up'] as const
export const VISIT_STATUSES = [
  'enquired',
  'agreed',
  'in work',
  'paused',
  'finished',
  'delivered',
  /** An enquiry that came to nothing, or a car that was added by mistake. */
  'not taken on',
] as const
const visitStatusSchema = z.enum(VISIT_STATUSES)

const car = {
  shellNumber: z
    .string()
    .regex(
      /^[A-Za-z0-9][A-Za-z0-9./-]{0,23}$/,
      'A shell number has 1 to 24 letters, digits, dots or dashes.',
    ),
  name: nameSchema,
  body: z.enum(BODIES),
  year: z.int().min(1880).max(2100).nullable(),
}

const agreement = {
  promised: dateSchema.nullable(),
  /** 1 ordinary, 2 soon, 3 first. */
  priority: z.int().min(1).max(3),
  charge: z.discriminatedUnion('by', [
    z.strictObject({ by: z.literal('hour') }),
    z.strictObject({ by: z.literal('fixed') }),
    z.strictObject({ by: z.literal('capped'), capHours: hoursSchema }),
  ]),
}

const reading = {
  mm: z.number().min(1).max(10_000),
  stood: fixtureSchema,
  doorsHung: z.boolean(),
}

/** Unspent authorised hours of a gate that went to another repair. */
const movedHoursSchema = z.strictObject({ gate: gateSchema, hours: hoursSchema })

export const carFacts = {
  carAdded: z.strictObject({ carId: carIdSchema, ...car }),
  carChanged: z.strictObject(car),
  visitOpened: z.strictObject({
    visitId: visitIdSchema,
    kind: z.enum(['agreed', 'warranty']),
    ownerId: partyIdSchema,
    insurerId: partyIdSchema.nullable(),
    status: visitStatusSchema,
    ...agreement,
  }),
  visitChanged: z.strictObject({
    visitId: visitIdSchema,
    /** Null for none; where it is not said it stays. */
    insurerId: partyIdSchema.nullable().optional(),
    ...agreement,
  }),
  visitStatusSet: z.strictObject({
    visitId: visitIdSchema,
    status: visitStatusSchema,
    reason: optionalNoteSchema,
  }),
  safetySet: z.strictObject({
    item: z.enum(['bracing', 'battery', 'fuel']),
    stands: z.boolean(),
    note: optionalNoteSchema,
  }),
  dimensionAdded: z.strictObject({
    dimensionId: dimensionIdSchema,
    name: nameSchema,
    kind: z.enum(['aperture', 'datum']),
    side: sideSchema,
    limitMm: z.number().min(0.1).max(20),
    ...reading,
  }),
  dimensionTargetSet: z.strictObject({
    dimensionId: dimensionIdSchema,
    targetMm: z.number().min(1).max(10_000),
    reason: reasonSchema,
  }),
  dimensionRead: z.strictObject({ readingId: readingIdSchema, dimensionId: dimensionIdSchema, ...reading }),
  noted: z.strictObject({ text: noteSchema }),

  repairAdded: z.strictObject({
    repairId: repairIdSchema,
    type: z.strictObject({ typeId: typeIdSchema, version: z.int().min(1) }).nullable(),
    plan: repairPlanSchema,
    payer: payerSchema,
  }),
  repairChanged: z.strictObject({
    repairId: repairIdSchema,
    plan: repairPlanSchema,
    typeVersion: z.int().min(1).nullable(),
    reason: optionalNoteSchema,
  }),
  /** The hours of its plan were taken from finished repairs, and so hold already what those ran over by. */
  hoursTaken: z.strictObject({
    repairId: repairIdSchema,
    /** Finished repairs that they rest on. */
    repairs: z.int().min(1).max(1000),
    /** A multiple of what people had estimated for these. */
    over: z.number().min(0.05).max(20),
    /** Between these, of the logarithm of what had been estimated: they were not all of one size. */
    deviation: z.number().min(0).max(3),
  }),
  repairRetired: z.strictObject({ repairId: repairIdSchema, reason: reasonSchema }),
  repairSplit: z.strictObject({
    repairId: repairIdSchema,
    newRepairId: repairIdSchema,
    plan: repairPlanSchema,
    /** Share of the unspent authorised hours that moves to the new repair, 0 to 1. */
    share: z.number().min(0).max(1),
    moves: z.array(movedHoursSchema).max(8),
    reason: reasonSchema,
  }),
  repairsMerged: z.strictObject({
    repairId: repairIdSchema,
    into: repairIdSchema,
    moves: z.array(movedHoursSchema).max(8),
    reason: reasonSchema,
  }),
  coverLinked: z.strictObject({ over: repairIdSchema, under: repairIdSchema }),
  coverUnlinked: z.strictObject({ over: repairIdSchema, under: repairIdSchema, reason: reasonSchema }),
  fitGroupSet: fitGroupPlanSchema,
  fitGroupDissolved: z.strictObject({ groupId: fitGroupIdSchema, reason: reasonSchema }),
  taskAdded: z.strictObject({ taskId: taskIdSchema, plan: taskPlanSchema }),
  taskChanged: z.strictObject({ taskId: taskIdSchema, plan: taskPlanSchema }),

  /**
   * Closes what was taken over from the file of another workshop: all earlier facts of the chain were recorded there. The
   * file's own journal is kept by its digest, as the proof of them.
   */
  carBroughtIn: z.strictObject({
    /** The other workshop's name. */
    from: nameSchema,
    /** Hash of the last line of its chain of the car, and how many lines that had. */
    head: sha256Schema,
    lines: z.int().min(1),
    /** Lines whose content was left out or shortened before the file left that workshop. */
    withheld: z.int().min(0),
    /** Lines that were not taken over, as they speak of that workshop's own things. */
    leftOut: z.int().min(0),
    journal: sha256Schema,
    /** Of the bag's manifest of its payload. */
    manifest: sha256Schema,
  }),
}

export type Body = z.infer<typeof carFacts.carAdded>['body']
export type VisitStatus = z.infer<typeof visitStatusSchema>
