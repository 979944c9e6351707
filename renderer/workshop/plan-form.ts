import type { UseFormReturn } from 'react-hook-form'
import type { z } from 'zod'
import type { repairPlanSchema } from '../../domain/facts/shapes.ts'

/** The form of a whole repair type; its parts take it by this name. */
export type PlanForm = UseFormReturn<
  z.input<typeof repairPlanSchema>,
  unknown,
  z.output<typeof repairPlanSchema>
>
