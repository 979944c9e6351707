import type { WorkTarget } from '../../../domain/facts/shapes.ts'
import type { DaySheetLine } from '../../../domain/views/view-shapes.ts'

/** The gate or task that a line of a day sheet or of an estimate is about; null for a line that names neither. */
export function lineTarget({
  repairId,
  taskId,
  gate,
}: Pick<DaySheetLine, 'repairId' | 'taskId' | 'gate'>): WorkTarget | null {
  if (repairId !== null && gate !== null) return { kind: 'gate', repairId, gate }
  return taskId === null ? null : { kind: 'task', taskId }
}
