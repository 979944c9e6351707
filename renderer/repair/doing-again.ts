import type { Command, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { RepairId } from '../../domain/ids.ts'
import type { Doing } from './repair-context.ts'

/** The form in which something that was refused is entered once more; null where it is not of this repair or has none. */
export function doingAgain({ kind, payload }: Command, repairId: RepairId): Doing | null {
  switch (kind) {
    case 'readConditions': {
      const { repairIds, gate } = payload as CommandPayload<'readConditions'>
      return repairIds.includes(repairId) ? { kind: 'conditions', gate } : null
    }
    case 'gradeLayer': {
      const layer = payload as CommandPayload<'gradeLayer'>
      return layer.repairId === repairId ? { kind: 'grade', layerId: layer.layerId } : null
    }
    case 'addFinding':
      return (payload as CommandPayload<'addFinding'>).repairId === repairId ? { kind: 'finding' } : null
    default:
      return null
  }
}
