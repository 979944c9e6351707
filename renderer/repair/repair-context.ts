import { createContext, useContext } from 'react'
import type { PartState } from '../../domain/facts/work-facts.ts'
import type { SafetyItem } from '../../domain/car.ts'
import type { Gate } from '../../domain/gates.ts'
import type { DimensionId, FitGroupId, LayerId } from '../../domain/ids.ts'
import type { HoldView } from '../../domain/views/shared-views.ts'
import type { RepairView } from '../../domain/views/view-shapes.ts'
import type { PhotoInputs } from '../parts/photos/use-photo-inputs.tsx'

type PartView = RepairView['parts'][number]

/** The one form or dialog that is open. */
export type Doing =
  | { readonly kind: 'grade'; readonly layerId: LayerId }
  | { readonly kind: 'conditions'; readonly gate: Gate }
  | { readonly kind: 'drains' }
  | { readonly kind: 'fit-up'; readonly groupId: FitGroupId }
  | { readonly kind: 'dimension'; readonly dimensionId: DimensionId }
  | { readonly kind: 'add dimension' }
  | { readonly kind: 'welds' }
  | { readonly kind: 'safety'; readonly item: SafetyItem }
  | { readonly kind: 'review' }
  | { readonly kind: 'photos' }
  | { readonly kind: 'captions' }
  | { readonly kind: 'prepared' }
  | { readonly kind: 'sign' }
  | { readonly kind: 'release'; readonly hold: HoldView | null }
  | { readonly kind: 'lift' }
  | { readonly kind: 'set hold' }
  | { readonly kind: 'not needed'; readonly gate: Gate }
  | { readonly kind: 'reopen'; readonly gate: Gate }
  | { readonly kind: 'say left'; readonly gate: Gate }
  | { readonly kind: 'gate photos'; readonly gate: Gate }
  | { readonly kind: 'need part' }
  | { readonly kind: 'move part'; readonly part: PartView; readonly to: PartState }
  | { readonly kind: 'finding' }
  | { readonly kind: 'as found' }
  | { readonly kind: 'variation' }
  | { readonly kind: 'plan' }
  | { readonly kind: 'layers plan' }
  | { readonly kind: 'gate plan'; readonly gate: Gate }
  | { readonly kind: 'weld plan' }
  | { readonly kind: 'split' }
  | { readonly kind: 'merge' }
  | { readonly kind: 'retire' }

interface RepairOnScreen {
  readonly view: RepairView
  readonly open: (doing: Doing) => void
  readonly photos: PhotoInputs
}

export const RepairContext = createContext<RepairOnScreen | null>(null)

/** The repair that is shown, and what opens its forms. */
export function useRepair(): RepairOnScreen {
  const repair = useContext(RepairContext)
  if (repair === null) throw new Error('useRepair needs a RepairContext above it')
  return repair
}
