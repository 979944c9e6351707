import type { WorkTarget } from '../../domain/facts/shapes.ts'
import type { DaySheetLine } from '../../domain/views/view-shapes.ts'

/** What time on this line is logged on. */
export function lineTarget({ repairId, taskId, gate }: DaySheetLine): WorkTarget | null {
  if (repairId !== null && gate !== null) return { kind: 'gate', repairId, gate }
  return taskId === null ? null : { kind: 'task', taskId }
}
