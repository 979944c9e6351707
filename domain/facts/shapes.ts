import { z } from 'zod'
import { gateSchema } from '../gates.ts'
import {
  edgeIdSchema,
  fitGroupIdSchema,
  jointIdSchema,
  layerIdSchema,
  lineIdSchema,
  partIdSchema,
  repairIdSchema,
  taskIdSchema,
} from '../ids.ts'
import { nameSchema, noteSchema, optionalNoteSchema } from '../text/safe-text.ts'

/** An instant as people state it: ISO 8601 with its UTC offset. */
export const instantSchema = z.iso.datetime({
  offset: true,
  error: 'Give a date and time with its UTC offset, like 2026-11-25T10:40:00+00:00.',
})
export const dateSchema = z.iso.date('Give a date as YYYY-MM-DD.')
export const weekSchema = z
  .string()
  .regex(/^\d{4}-W(0[1-9]|[1-4]\d|5[0-3])$/, 'Give an ISO week like 2026-W48.')
export const sha256Schema = z.string().regex(/^[0-9a-f]{64}$/, 'A SHA-256 digest has 64 hexadecimal digits.')

/** Person-hours; 10,000 is far above any one line and far below what floating point would blur. */
export const hoursSchema = z
  .number()
  .min(0, 'Hours cannot be negative.')
  .max(10_000, 'More than 10,000 hours on one line is not believable; split the line.')
export const reasonSchema = noteSchema

export const SIDES = ['left', 'right', 'centre'] as const
export const PLACES = ['front', 'middle', 'rear'] as const
export const sideSchema = z.enum(SIDES)
export const zoneSchema = z.strictObject({ side: sideSchema, place: z.enum(PLACES) })

/** Best to worst; only 'surface' relates to the public rust-grade tables. */
export const GRADES = ['sound', 'surface', 'pitted', 'holed', 'gone'] as const
export const gradeSchema = z.enum(GRADES)
export const DECISIONS = ['keep', 'treat', 'patch', 'replace'] as const
export const decisionSchema = z.enum(DECISIONS)
export const FINDING_KINDS = [
  'corrosion',
  'earlier patch',
  'filler',
  'crack',
  'crease',
  'distortion',
] as const
export const findingKindSchema = z.enum(FINDING_KINDS)

export const PAYERS = ['owner', 'insurer', 'workshop'] as const
export const payerSchema = z.enum(PAYERS)

/** How the shell stands while it is measured or moved. */
export const FIXTURES = ['wheels', 'stands', 'jig', 'rotisserie', 'dolly'] as const
export const fixtureSchema = z.enum(FIXTURES)

export const REWORK_CAUSES = [
  'workmanship',
  'material',
  'fit',
  'measurement',
  'damaged after',
  'changed mind',
  'found later',
  'away',
] as const
export const reworkCauseSchema = z.enum(REWORK_CAUSES)

/** Three points in person-hours: shortest, most likely, longest. */
export const threePointSchema = z
  .strictObject({ shortest: hoursSchema, likely: hoursSchema, longest: hoursSchema })
  .refine((p) => p.shortest <= p.likely && p.likely <= p.longest, {
    error: 'Give the hours in order: shortest, most likely, longest.',
  })

export const conditionLimitsSchema = z.strictObject({
  /** Degrees C that the steel must be above the dew point. */
  minMarginC: z.number().min(0).max(20),
  maxHumidityPercent: z.number().min(1).max(100).nullable(),
  minAirC: z.number().min(-45).max(60).nullable(),
  maxAirC: z.number().min(-45).max(60).nullable(),
})

/** What a gate asks for before it may be passed; photos count by what each attachment says it shows. */
export const gateAsksSchema = z.strictObject({
  photosBefore: z.int().min(0).max(20),
  photos: z.int().min(0).max(20),
  /** 'graded': every layer that was seen; 'repaired': every layer that is not kept. */
  layerPhotos: z.enum(['none', 'graded', 'repaired']),
  safety: z.boolean(),
  review: z.boolean(),
  drains: z.boolean(),
  conditions: conditionLimitsSchema.nullable(),
  fitUp: z.boolean(),
  dimensions: z.boolean(),
  welds: z.boolean(),
  secondSignature: z.boolean(),
})

export const gatePlanSchema = z.strictObject({
  hours: threePointSchema,
  skill: nameSchema,
  people: z.int().min(1).max(6),
  bayKind: nameSchema,
  hotWork: z.boolean(),
  /** Clock hours that the next gate, and the welded gate of what covers this repair, must wait. */
  cureHours: z.number().min(0).max(2_000),
  /** The latest time after an earlier gate; past it the surface is prepared again. */
  window: z.strictObject({ after: gateSchema, hours: z.number().positive().max(10_000) }).nullable(),
  asks: gateAsksSchema,
})

const layerPlanSchema = z.strictObject({
  layerId: layerIdSchema,
  name: nameSchema,
  thicknessMm: z.number().min(0.2).max(12),
  loadBearing: z.boolean(),
})

export const JOINT_KINDS = ['spot', 'plug', 'seam'] as const
const weldJointSchema = z.strictObject({
  jointId: jointIdSchema,
  name: nameSchema,
  kind: z.enum(JOINT_KINDS),
  /** Spots and plugs by count, seam by length in mm. */
  planned: z.number().positive().max(100_000),
})

const partPlanSchema = z.strictObject({ partId: partIdSchema, name: nameSchema, gate: gateSchema })

/** The repair's own copy of its type: later changes of the type reach it only when the manager picks it. */
export const repairPlanSchema = z.strictObject({
  name: nameSchema,
  zone: zoneSchema,
  /** A repair on a part off the car needs a bench and no bay. */
  on: z.enum(['shell', 'part']),
  loadBearing: z.boolean(),
  primedFirst: z.boolean(),
  /** Covered repairs get a protective coat where they stand; outer ones their outer finish. */
  outer: z.boolean(),
  /** Innermost first; the last one is the closing panel. */
  layers: z.array(layerPlanSchema).min(1, 'A repair has at least one layer.').max(12),
  gates: z.record(gateSchema, gatePlanSchema),
  welds: z.array(weldJointSchema).max(40),
  parts: z.array(partPlanSchema).max(40),
})

export const edgePlanSchema = z.strictObject({
  edgeId: edgeIdSchema,
  name: nameSchema,
  nominalMm: z.number().min(0).max(50),
  toleranceMm: z.number().min(0).max(20),
  flushToleranceMm: z.number().min(0).max(20),
})

export const edgeReadingSchema = z.strictObject({
  edgeId: edgeIdSchema,
  gapsMm: z.array(z.number().min(-5).max(60)).min(1, 'Read the gap at one place at least.').max(40),
  /** Step across the edge; positive when the hung part stands proud. */
  flushMm: z.number().min(-50).max(50),
})

/** What hours are estimated, authorised and logged on, beside the workshop itself. */
export const workTargetSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('gate'), repairId: repairIdSchema, gate: gateSchema }),
  z.strictObject({ kind: z.literal('task'), taskId: taskIdSchema }),
])

export const estimateLineSchema = z.strictObject({
  lineId: lineIdSchema,
  target: workTargetSchema,
  hours: threePointSchema,
  /** The agreed figure: (a + 4m + b)/6 unless agreed otherwise. */
  agreed: hoursSchema,
  payer: payerSchema,
})

export const taskPlanSchema = z.strictObject({
  name: nameSchema,
  hours: threePointSchema,
  skill: nameSchema,
  people: z.int().min(1).max(6),
  bayKind: nameSchema,
  hotWork: z.boolean(),
  cureHours: z.number().min(0).max(2_000),
  photos: z.int().min(0).max(20),
  payer: payerSchema,
  waitsFor: z.array(workTargetSchema).max(200),
  /** Gates that wait for this task. */
  holds: z.array(workTargetSchema).max(200),
})

/** A time of day on some clock, 'HH:MM'. @param like an example, for who types it */
export const timeOfDaySchema = (like: string) =>
  z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, `Give a time like ${like}.`)

export const workingSpanSchema = z
  .strictObject({
    from: timeOfDaySchema('08:00'),
    to: timeOfDaySchema('16:30'),
  })
  .refine((span) => span.from < span.to, { error: 'The working time must end after it starts.' })
/** Monday first. */
export const workingWeekSchema = z.array(z.array(workingSpanSchema).max(4)).length(7)

export const fitGroupPlanSchema = z.strictObject({
  groupId: fitGroupIdSchema,
  name: nameSchema,
  members: z.array(repairIdSchema).max(40),
  hungParts: z.array(nameSchema).max(12),
  edges: z.array(edgePlanSchema).max(24),
})

export { nameSchema, noteSchema, optionalNoteSchema }

export type Side = z.infer<typeof sideSchema>
export type Zone = z.infer<typeof zoneSchema>
export type Grade = z.infer<typeof gradeSchema>
export type Decision = z.infer<typeof decisionSchema>
export type FindingKind = z.infer<typeof findingKindSchema>
export type Payer = z.infer<typeof payerSchema>
export type Fixture = z.infer<typeof fixtureSchema>
export type ReworkCause = z.infer<typeof reworkCauseSchema>
export type ThreePoint = z.infer<typeof threePointSchema>
export type ConditionLimits = z.infer<typeof conditionLimitsSchema>
export type GateAsks = z.infer<typeof gateAsksSchema>
export type GatePlan = z.infer<typeof gatePlanSchema>
export type LayerPlan = z.infer<typeof layerPlanSchema>
export type RepairPlan = z.infer<typeof repairPlanSchema>
export type EdgePlan = z.infer<typeof edgePlanSchema>
export type EdgeReading = z.infer<typeof edgeReadingSchema>
export type WorkTarget = z.infer<typeof workTargetSchema>
export type EstimateLine = z.infer<typeof estimateLineSchema>
export type TaskPlan = z.infer<typeof taskPlanSchema>
export type WorkingWeek = z.infer<typeof workingWeekSchema>
export type FitGroupPlan = z.infer<typeof fitGroupPlanSchema>
