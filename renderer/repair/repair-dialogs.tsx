import { AddDimensionDialog } from '../parts/measure/add-dimension-dialog.tsx'
import { CloseAsFoundDialog } from '../parts/gates/close-as-found-dialog.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { DimensionDialog } from '../parts/measure/dimension-dialog.tsx'
import { FitUpDialog } from '../parts/measure/fit-up-dialog.tsx'
import { PhotoGrid } from '../parts/photos/photo-grid.tsx'
import { RaiseVariationForm } from '../parts/variation/raise-variation-form.tsx'
import { SayLeftDialog } from '../parts/clock/say-left-dialog.tsx'
import { LiftSupportDialog } from '../parts/gates/lift-support-dialog.tsx'
import { SetHoldDialog } from '../parts/gates/set-hold-dialog.tsx'
import { CaptionsDialog } from './captions-dialog.tsx'
import { ConditionsDialog } from './conditions-dialog.tsx'
import { DrainsDialog } from './drains-dialog.tsx'
import { FindingDialog } from './finding-dialog.tsx'
import { GatePlanDialog } from './gate-plan-dialog.tsx'
import { GradeDialog } from './grade-dialog.tsx'
import { LayersPlanDialog } from './layers-plan-dialog.tsx'
import { MergeDialog } from './merge-dialog.tsx'
import { MovePartDialog } from './move-part-dialog.tsx'
import { NeedPartDialog } from './need-part-dialog.tsx'
import { NotNeededDialog, RetireDialog, ReviewDialog } from './reasoned-dialogs.tsx'
import { PhotosDialog } from './photos-dialog.tsx'
import { PlanDialog } from './plan-dialog.tsx'
import { PreparedDialog } from './prepared-dialog.tsx'
import { ReleaseDialog } from './release-dialog.tsx'
import { ReopenDialog } from './reopen-dialog.tsx'
import { type Doing, useRepair } from './repair-context.ts'
import { SafetyDialog } from './safety-dialog.tsx'
import { SignDialog } from './sign-dialog.tsx'
import { SplitDialog } from './split-dialog.tsx'
import { WeldPlanDialog } from './weld-plan-dialog.tsx'
import { WeldsDialog } from './welds-dialog.tsx'

/** The form or dialog of what is being done. */
export function RepairDialogs({ doing, onClose }: { readonly doing: Doing; readonly onClose: () => void }) {
  const { view } = useRepair()
  const { carId } = view.car
  switch (doing.kind) {
    case 'grade':
      return <GradeDialog key={doing.layerId} layerId={doing.layerId} onClose={onClose} />
    case 'conditions':
      return <ConditionsDialog gate={doing.gate} onClose={onClose} />
    case 'drains':
      return <DrainsDialog onClose={onClose} />
    case 'fit-up': {
      const group = view.fitGroups.find(({ id }) => id === doing.groupId)
      return group && <FitUpDialog carId={carId} group={group} kind={fitKind(view)} onClose={onClose} />
    }
    case 'dimension': {
      const dimension = view.dimensions.find(({ id }) => id === doing.dimensionId)
      return dimension && <DimensionDialog carId={carId} dimension={dimension} onClose={onClose} />
    }
    case 'add dimension':
      return (
        <AddDimensionDialog
          carId={carId}
          side={view.repair.zone.side}
          stood={view.car.fixture}
          onClose={onClose}
        />
      )
    case 'welds':
      return <WeldsDialog onClose={onClose} />
    case 'safety':
      return <SafetyDialog item={doing.item} onClose={onClose} />
    case 'review':
      return <ReviewDialog onClose={onClose} />
    case 'photos':
      return <PhotosDialog onClose={onClose} />
    case 'captions':
      return <CaptionsDialog onClose={onClose} />
    case 'prepared':
      return <PreparedDialog onClose={onClose} />
    case 'sign':
      return <SignDialog onClose={onClose} />
    case 'release':
      return <ReleaseDialog hold={doing.hold} onClose={onClose} />
    case 'lift':
      return <LiftSupportDialog carId={carId} named={[view.repair.id]} onClose={onClose} />
    case 'set hold':
      return <SetHoldDialog carId={carId} scopes={holdScopes(view)} onClose={onClose} />
    case 'not needed':
      return <NotNeededDialog gate={doing.gate} onClose={onClose} />
    case 'reopen':
      return <ReopenDialog gate={doing.gate} onClose={onClose} />
    case 'gate photos':
      return (
        <Dialog title={`Photos of ${doing.gate}`} isOpen onClose={onClose} size="wide">
          <PhotoGrid
            photos={view.gates.find(({ gate }) => gate === doing.gate)?.photos ?? []}
            carId={carId}
          />
        </Dialog>
      )
    case 'say left': {
      const gate = view.gates.find((each) => each.gate === doing.gate)
      return (
        gate && (
          <SayLeftDialog
            carId={carId}
            target={{ kind: 'gate', repairId: view.repair.id, gate: gate.gate }}
            name={gate.gate}
            spent={gate.hours.spent}
            left={gate.left}
            onClose={onClose}
          />
        )
      )
    }
    case 'need part':
      return <NeedPartDialog onClose={onClose} />
    case 'move part':
      return <MovePartDialog part={doing.part} to={doing.to} onClose={onClose} />
    case 'finding':
      return <FindingDialog onClose={onClose} />
    case 'as found':
      return <CloseAsFoundDialog carId={carId} repairId={view.repair.id} onClose={onClose} />
    case 'variation':
      return (
        <Dialog title={`Raise a variation on ${view.repair.name}`} isOpen onClose={onClose} size="wide">
          <RaiseVariationForm carId={carId} repairId={view.repair.id} onClose={onClose} />
        </Dialog>
      )
    case 'plan':
      return <PlanDialog onClose={onClose} />
    case 'layers plan':
      return <LayersPlanDialog onClose={onClose} />
    case 'gate plan':
      return <GatePlanDialog gate={doing.gate} onClose={onClose} />
    case 'weld plan':
      return <WeldPlanDialog onClose={onClose} />
    case 'split':
      return <SplitDialog onClose={onClose} />
    case 'merge':
      return <MergeDialog onClose={onClose} />
    case 'retire':
      return <RetireDialog onClose={onClose} />
  }
}

type View = ReturnType<typeof useRepair>['view']

/** The whole group at trial-fitted, read again once welded is next or done, a dry fit before. */
function fitKind({ next, repair }: View): 'dry' | 'full' | 'check' {
  if (next?.gate === 'trial-fitted') return 'full'
  const isFitted = repair.marks.some(({ gate, mark }) => gate === 'trial-fitted' && mark === 'passed')
  return isFitted ? 'check' : 'dry'
}

function holdScopes({ repair, next }: View) {
  return [
    ...(next === null
      ? []
      : [
          {
            words: `only ${next.gate}`,
            scope: { kind: 'gate' as const, repairId: repair.id, gate: next.gate },
          },
        ]),
    { words: 'this repair', scope: { kind: 'repair' as const, repairId: repair.id } },
    { words: 'the whole car', scope: { kind: 'car' as const } },
  ]
}
