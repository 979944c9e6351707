import { z } from 'zod'
import { bayIdSchema, partyIdSchema, personIdSchema, typeIdSchema } from '../ids.ts'
import {
  conditionLimitsSchema,
  dateSchema,
  nameSchema,
  reasonSchema,
  repairPlanSchema,
  sha256Schema,
  workingWeekSchema,
} from './shapes.ts'

const roleSchema = z.enum(['manager', 'technician'])
export const BAY_KINDS = ['metalwork', 'jig', 'lift', 'preparation', 'booth', 'storage'] as const

const absenceSchema = z.strictObject({ from: dateSchema, to: dateSchema }).refine((a) => a.from <= a.to, {
  error: 'The absence must end on or after the day it starts.',
})

const person = {
  personId: personIdSchema,
  roles: z.array(roleSchema).min(1, 'Choose at least one role.').max(2),
  skills: z.array(nameSchema).max(20),
  /** The person's own working week, or the workshop's. */
  week: workingWeekSchema.nullable(),
  absences: z.array(absenceSchema).max(200),
}

/** Where the bay is drawn on the shop floor, in tenths of a metre. */
const floorPlaceSchema = z.strictObject({
  x: z.int().min(0).max(2_000),
  y: z.int().min(0).max(2_000),
  width: z.int().min(10).max(1_000),
  height: z.int().min(10).max(1_000),
})

const bay = {
  bayId: bayIdSchema,
  name: nameSchema,
  kinds: z.array(nameSchema).min(1, 'Give the bay at least one kind.').max(8),
  floor: floorPlaceSchema,
}

export const workshopSettingsSchema = z.strictObject({
  /** Minutes of fire watch after hot work; never under 30. */
  watchMinutes: z.int().min(30, 'A fire watch is never under 30 minutes.').max(480),
  conditions: conditionLimitsSchema,
  gapNominalMm: z.number().min(0.5).max(20),
  gapToleranceMm: z.number().min(0.1).max(10),
  flushToleranceMm: z.number().min(0.1).max(10),
  datumLimitMm: z.number().min(0.1).max(20),
  apertureLimitMm: z.number().min(0.1).max(20),
  figuresByPerson: z.boolean(),
})

/** Names and contacts are never in a payload: they stand in the contact book under the same id. */
export const workshopFacts = {
  workshopSetUp: z.strictObject({
    name: nameSchema,
    zone: nameSchema,
    currency: z.string().regex(/^[A-Z]{3}$/, 'Give the currency as three letters, like EUR.'),
  }),
  personAdded: z.strictObject(person),
  personChanged: z.strictObject({ ...person, active: z.boolean() }),
  partyAdded: z.strictObject({ partyId: partyIdSchema, kind: z.enum(['owner', 'insurer', 'firm']) }),
  /** Name and address of a person or party went from the contact book for good; the id stays, and means nobody. */
  contactErased: z.strictObject({ id: z.union([personIdSchema, partyIdSchema]) }),
  bayAdded: z.strictObject(bay),
  bayChanged: z.strictObject({ ...bay, active: z.boolean() }),
  calendarSet: z.strictObject({
    week: workingWeekSchema,
    holidays: z.array(z.strictObject({ date: dateSchema, name: nameSchema })).max(400),
  }),
  settingsSet: workshopSettingsSchema,
  typeSaved: z.strictObject({
    typeId: typeIdSchema,
    version: z.int().min(1),
    plan: repairPlanSchema,
  }),
  typeRetired: z.strictObject({ typeId: typeIdSchema, reason: reasonSchema }),
  /** Heads of the cars' chains that have grown since the last time, so that a cut or rewritten chain is seen. */
  headsLinked: z.strictObject({ heads: z.record(z.string(), sha256Schema) }),
}

export type Role = z.infer<typeof roleSchema>
export type WorkshopSettings = z.infer<typeof workshopSettingsSchema>
