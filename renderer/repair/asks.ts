import type { Gate } from '../../domain/gates.ts'
import type { DimensionId, FitGroupId, LayerId } from '../../domain/ids.ts'
import type { SafetyItem } from '../../domain/car.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import type { AskView, RepairView } from '../../domain/views/view-shapes.ts'
import type { PhotoWork } from '../parts/photos/photo-aim.ts'
import type { Doing } from './repair-context.ts'

/** The next gate as photos are aimed at it; the last one, asking for nothing, when all are done. */
export function photoWork({ repair, next, section }: RepairView): PhotoWork {
  return {
    repairId: repair.id,
    gate: next?.gate ?? 'painted',
    asks: next?.asks ?? [],
    layers: section.layers,
  }
}

/** The form that answers an ask; null for what is done without one. */
export function askDoing(ask: AskView, gate: Gate): Doing | null {
  switch (ask.kind) {
    case 'layer grade':
      return { kind: 'grade', layerId: ask.layerId as LayerId }
    case 'safety':
      return ask.subject === 'dimensions'
        ? { kind: 'add dimension' }
        : { kind: 'safety', item: ask.subject as SafetyItem }
    case 'review':
      return { kind: 'review' }
    case 'drains':
      return { kind: 'drains' }
    case 'conditions':
      return { kind: 'conditions', gate }
    case 'fit-up':
      return { kind: 'fit-up', groupId: ask.subject as FitGroupId }
    case 'dimension':
      return { kind: 'dimension', dimensionId: ask.subject as DimensionId }
    case 'welds':
      return { kind: 'welds' }
    case 'photo before':
    case 'photo':
    case 'layer photo':
    case 'layer repaired':
      return null
  }
}

/** Holds that are not said by the line of an ask already, and whose skill somebody has asked to be let pass. */
export function otherHolds({
  asks,
  holds,
  skillHolds,
}: NonNullable<RepairView['next']>): readonly HoldView[] {
  const said = new Set(asks.filter((ask) => !ask.met).map((ask) => ask.key))
  return [
    ...holds.filter((hold) => hold.released !== null || !said.has(hold.subject)),
    ...skillHolds.filter(({ asked, released }) => asked || released !== null),
  ]
}
