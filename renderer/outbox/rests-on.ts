import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'

/** By command, what later ones can only be about when it was taken in: what it makes, or the clock that it stops. */
const GROUNDS: { readonly [K in CommandKind]?: (payload: CommandPayload<K>) => readonly string[] } = {
  startClock: ({ entryId }) => [entryId],
  stopClock: ({ entryId }) => [entryId],
  logTime: ({ entryId }) => [entryId],
  correctTime: ({ entryId }) => [entryId],
  attachPhoto: ({ attachmentId }) => [attachmentId],
  addDimension: ({ dimensionId }) => [dimensionId],
  addFinding: ({ findingId }) => [findingId],
  needPart: ({ partId }) => [partId],
  addRepair: ({ repairId }) => [repairId],
  addTask: ({ taskId }) => [taskId],
  addCar: ({ carId }) => [carId],
}

/** Ids that later commands rest on. */
export function groundsOf({ kind, payload }: Command): readonly string[] {
  // The table's entry for a kind takes that kind's payload; the compiler cannot join the two by itself.
  const grounds = GROUNDS[kind] as ((payload: unknown) => readonly string[]) | undefined
  return grounds?.(payload) ?? []
}

/** True when the command is about one of these ids. */
export function restsOn({ carId, payload }: Command, grounds: readonly string[]): boolean {
  return grounds.length > 0 && ((carId !== null && grounds.includes(carId)) || mentions(payload, grounds))
}

function mentions(value: unknown, ids: readonly string[]): boolean {
  if (typeof value === 'string') return ids.includes(value)
  if (typeof value !== 'object' || value === null) return false
  return Object.values(value).some((each) => mentions(each, ids))
}
