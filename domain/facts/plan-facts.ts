import { z } from 'zod'
import { carIdSchema, overtimeIdSchema, personIdSchema, planIdSchema, variationIdSchema } from '../ids.ts'
import {
  dateSchema,
  fixtureSchema,
  hoursSchema,
  optionalNoteSchema,
  sha256Schema,
  workingSpanSchema,
  workTargetSchema,
} from './shapes.ts'

/** Fixtures that a workshop has few of. */
export const FEW_FIXTURES = ['jig', 'rotisserie', 'dolly'] as const
const fewFixtureSchema = fixtureSchema.extract(FEW_FIXTURES)

export const planningSchema = z.strictObject({
  /** How long moving a shell to another bay takes, and how many people it needs; nobody for a crane or a tug. */
  moveMinutes: z.int().min(0).max(480, 'A move takes 480 minutes at most.'),
  movePeople: z.int().min(0).max(6, 'A move takes 6 people at most.'),
  /** Days after it was raised that an owner's decision is expected on, where no date is named. */
  decisionDays: z.int().min(0).max(90, 'Expect a decision within 90 days.'),
  /** Today and so many of the workshop's working days more keep the plan in force; 0 keeps nothing. */
  frozenDays: z.int().min(0).max(30, 'At most 30 days can be kept.'),
  /** Changes outside those days are taken without asking. */
  takeByItself: z.boolean(),
})

/** How many of each there are; null is not limited. */
const countSchema = z.int().min(0).max(50, 'A workshop has 50 of these at most.').nullable()
export const fixtureCountsSchema = z.strictObject({
  jig: countSchema,
  rotisserie: countSchema,
  dolly: countSchema,
})

export const overtimeSchema = z.strictObject({
  overtimeId: overtimeIdSchema,
  people: z.array(personIdSchema).min(1, 'Name who works longer.').max(60),
  /** First and last day, both inclusive. */
  from: dateSchema,
  to: dateSchema,
  /** 1 Monday to 7 Sunday. */
  weekdays: z.array(z.int().min(1).max(7)).min(1, 'Choose a day of the week.').max(7),
  /** Worked on top of the person's own hours, on holidays too. */
  span: workingSpanSchema,
})

/** What a car's people and the manager say that the planner goes by. */
export const carPlanFacts = {
  /** Who does it, by when it starts, or both; a later pin on the same work takes the place of the earlier. */
  workPinned: z.strictObject({
    target: workTargetSchema,
    people: z.array(personIdSchema).max(6),
    day: dateSchema.nullable(),
  }),
  workUnpinned: z.strictObject({ target: workTargetSchema }),
  /** Person-hours still to do; 0 when only the signature is left. */
  leftSaid: z.strictObject({ target: workTargetSchema, hours: hoursSchema }),
  decisionExpected: z.strictObject({ variationId: variationIdSchema, expected: dateSchema }),
  /** What the shell stands on while its load-bearing repairs are done. */
  fixturePlanned: z.strictObject({ fixture: fewFixtureSchema.nullable() }),
}

/** The workshop's own part of planning. */
export const workshopPlanFacts = {
  planningSet: planningSchema,
  fixturesSet: z.strictObject({ counts: fixtureCountsSchema }),
  overtimeSet: overtimeSchema,
  overtimeCancelled: z.strictObject({ overtimeId: overtimeIdSchema }),
  /** The plan that people are given from now on. Its content is kept beside the journal, under this digest. */
  planTaken: z.strictObject({
    planId: planIdSchema,
    sha256: sha256Schema,
    /** What made it differ from the one before; names no people. */
    cause: optionalNoteSchema,
    /** Epoch ms, not exceeded with that likelihood; null where it was not reckoned. */
    cars: z
      .array(
        z.strictObject({ carId: carIdSchema, finish50: z.int().nullable(), finish80: z.int().nullable() }),
      )
      .max(1_000),
  }),
}

export type Planning = z.infer<typeof planningSchema>
export type FixtureCounts = z.infer<typeof fixtureCountsSchema>
export type FewFixture = z.infer<typeof fewFixtureSchema>
