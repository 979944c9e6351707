import type { RepairPlan } from '../../domain/facts/shapes.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'

/** A copy of the repair's plan that may be changed. */
export const draftPlan = (plan: RepairView['plan']): RepairPlan => structuredClone(plan) as RepairPlan
