import type { z } from 'zod'
import { agreementFacts } from './facts/agreement-facts.ts'
import { carFacts } from './facts/car-facts.ts'
import { moneyFacts, workshopMoneyFacts } from './facts/money-facts.ts'
import { placeFacts } from './facts/place-facts.ts'
import { carPlanFacts, workshopPlanFacts } from './facts/plan-facts.ts'
import { workshopReportFacts } from './facts/reports-facts.ts'
import { timeFacts } from './facts/time-facts.ts'
import { workFacts } from './facts/work-facts.ts'
import { workshopFacts } from './facts/workshop-facts.ts'
import type { CarId, CommandId, DeviceId, PersonId, VisitId } from './ids.ts'

/** Every kind of fact that the journal knows, with the shape of its payload. Payloads are never migrated. */
export const factSchemas = {
  ...workshopFacts,
  ...carFacts,
  ...workFacts,
  ...agreementFacts,
  ...moneyFacts,
  ...workshopMoneyFacts,
  ...timeFacts,
  ...placeFacts,
  ...carPlanFacts,
  ...workshopPlanFacts,
  ...workshopReportFacts,
}

export type FactKind = keyof typeof factSchemas
export type PayloadOf<K extends FactKind> = z.infer<(typeof factSchemas)[K]>

/** A decided fact before the journal has numbered it. */
export type NewFact = { readonly [K in FactKind]: NewFactOf<K> }[FactKind]
export interface NewFactOf<K extends FactKind> {
  readonly kind: K
  readonly payload: PayloadOf<K>
}

/** What the journal adds. Times are ISO 8601 with offset: stated, by the device, by the host. */
export interface FactEnvelope {
  /** The journal's number: the only order of facts. */
  readonly number: number
  readonly version: number
  readonly carId: CarId | null
  readonly visitId: VisitId | null
  readonly by: PersonId | null
  readonly device: DeviceId | null
  readonly commandId: CommandId
  readonly happened: string
  readonly made: string
  readonly recorded: string
}

export type Fact = { readonly [K in FactKind]: FactOf<K> }[FactKind]
export type FactOf<K extends FactKind> = FactEnvelope & NewFactOf<K>

/** Those of one kind, in their order. */
export const factsOfKind = <K extends FactKind>(facts: readonly Fact[], kind: K): readonly FactOf<K>[] =>
  facts.filter((each: Fact): each is Extract<Fact, FactOf<K>> => each.kind === kind)

/** The version that new payloads of every kind are written in. */
export const FACT_VERSION = 3

export const fact = <K extends FactKind>(kind: K, payload: PayloadOf<K>): NewFactOf<K> => ({ kind, payload })

export const isFactKind = (kind: string): kind is FactKind => kind in factSchemas
