import type { FitGroupPlan } from '../../domain/facts/shapes.ts'
import type { EdgeId, RepairId } from '../../domain/ids.ts'
import type { FitGroupView } from '../../domain/views/shared-views.ts'

/** The group as it is, with other members. */
export function fitGroupPayload(group: FitGroupView, members: readonly RepairId[]): FitGroupPlan {
  return {
    groupId: group.id,
    name: group.name,
    members: [...members],
    hungParts: [...group.hungParts],
    edges: edgePlans(group),
  }
}

/** Its edges without what was read on them. */
export const edgePlans = ({ edges }: FitGroupView): FitGroupPlan['edges'] =>
  edges.map(({ edgeId, name, nominalMm, toleranceMm, flushToleranceMm }) => ({
    edgeId: edgeId as EdgeId,
    name,
    nominalMm,
    toleranceMm,
    flushToleranceMm,
  }))
