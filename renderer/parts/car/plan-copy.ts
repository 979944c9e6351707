import type { RepairPlan } from '../../../domain/facts/shapes.ts'
import type { JointId, LayerId, PartId } from '../../../domain/ids.ts'
import { newId } from '../form/new-id.ts'

/** The same plan for another repair or type: its layers, joints and parts are its own, so their ids are new. */
export const planCopy = (plan: RepairPlan, name: string): RepairPlan => ({
  ...plan,
  name,
  layers: plan.layers.map((layer) => ({ ...layer, layerId: newId<LayerId>() })),
  welds: plan.welds.map((joint) => ({ ...joint, jointId: newId<JointId>() })),
  parts: plan.parts.map((part) => ({ ...part, partId: newId<PartId>() })),
})
