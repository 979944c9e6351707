import { createContext, useContext } from 'react'
import type { PlanNames } from '../../domain/drawing/plan-rows.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import type { PlanView } from '../../domain/views/plan-view-shapes.ts'

/** What every part of the screen shows: the view, and which of its plans. */
export interface ShownPlan {
  readonly view: PlanView
  readonly plan: Plan
  readonly names: PlanNames
  /** A manager is signed in here; others read. */
  readonly canChange: boolean
}

const ShownPlanContext = createContext<ShownPlan | null>(null)

export const ShownPlanProvider = ShownPlanContext.Provider

export function useShownPlan(): ShownPlan {
  const shown = useContext(ShownPlanContext)
  if (shown === null) throw new Error('useShownPlan needs a ShownPlanProvider above it')
  return shown
}
