import { z } from 'zod'

/** Ids are made by the screen that builds a command (a UUID), so that a repeated command is recognised. */
const ID_PATTERN = /^[a-z0-9][a-z0-9-]{5,59}$/

const id = <Name extends string>() =>
  z.string().regex(ID_PATTERN, 'This id is not one of ours; reload the screen and try again.').brand<Name>()

export const carIdSchema = id<'CarId'>()
export const visitIdSchema = id<'VisitId'>()
export const repairIdSchema = id<'RepairId'>()
export const layerIdSchema = id<'LayerId'>()
export const fitGroupIdSchema = id<'FitGroupId'>()
export const edgeIdSchema = id<'EdgeId'>()
export const taskIdSchema = id<'TaskId'>()
export const partIdSchema = id<'PartId'>()
export const jointIdSchema = id<'JointId'>()
export const lineIdSchema = id<'LineId'>()
export const variationIdSchema = id<'VariationId'>()
export const findingIdSchema = id<'FindingId'>()
export const attachmentIdSchema = id<'AttachmentId'>()
export const readingIdSchema = id<'ReadingId'>()
export const dimensionIdSchema = id<'DimensionId'>()
export const entryIdSchema = id<'EntryId'>()
export const bookingIdSchema = id<'BookingId'>()
export const awayIdSchema = id<'AwayId'>()
export const holdIdSchema = id<'HoldId'>()
export const liftIdSchema = id<'LiftId'>()
export const costIdSchema = id<'CostId'>()
export const spendingIdSchema = id<'SpendingId'>()
export const reportIdSchema = id<'ReportId'>()
export const overtimeIdSchema = id<'OvertimeId'>()
export const planIdSchema = id<'PlanId'>()
export const personIdSchema = id<'PersonId'>()
export const partyIdSchema = id<'PartyId'>()
export const bayIdSchema = id<'BayId'>()
export const typeIdSchema = id<'TypeId'>()
export const commandIdSchema = id<'CommandId'>()
export const deviceIdSchema = id<'DeviceId'>()

export type CarId = z.infer<typeof carIdSchema>
export type VisitId = z.infer<typeof visitIdSchema>
export type RepairId = z.infer<typeof repairIdSchema>
export type LayerId = z.infer<typeof layerIdSchema>
export type FitGroupId = z.infer<typeof fitGroupIdSchema>
export type EdgeId = z.infer<typeof edgeIdSchema>
export type TaskId = z.infer<typeof taskIdSchema>
export type PartId = z.infer<typeof partIdSchema>
export type JointId = z.infer<typeof jointIdSchema>
export type LineId = z.infer<typeof lineIdSchema>
export type VariationId = z.infer<typeof variationIdSchema>
export type FindingId = z.infer<typeof findingIdSchema>
export type AttachmentId = z.infer<typeof attachmentIdSchema>
export type ReadingId = z.infer<typeof readingIdSchema>
export type DimensionId = z.infer<typeof dimensionIdSchema>
export type EntryId = z.infer<typeof entryIdSchema>
export type BookingId = z.infer<typeof bookingIdSchema>
export type AwayId = z.infer<typeof awayIdSchema>
export type HoldId = z.infer<typeof holdIdSchema>
export type LiftId = z.infer<typeof liftIdSchema>
export type CostId = z.infer<typeof costIdSchema>
export type SpendingId = z.infer<typeof spendingIdSchema>
export type ReportId = z.infer<typeof reportIdSchema>
export type OvertimeId = z.infer<typeof overtimeIdSchema>
export type PlanId = z.infer<typeof planIdSchema>
export type PersonId = z.infer<typeof personIdSchema>
export type PartyId = z.infer<typeof partyIdSchema>
export type BayId = z.infer<typeof bayIdSchema>
export type TypeId = z.infer<typeof typeIdSchema>
export type CommandId = z.infer<typeof commandIdSchema>
export type DeviceId = z.infer<typeof deviceIdSchema>
