import type { Gate } from '../../domain/gates.ts'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

interface Closing {
  readonly onClose: () => void
}

/** The manager's look at the estimate once the layers are graded. */
export function ReviewDialog({ onClose }: Closing) {
  const { view } = useRepair()
  return (
    <ReasonDialog
      title="Review the estimate"
      label="Note (may stay empty)"
      submit="The estimate is reviewed"
      isOptional
      onClose={onClose}
      act={(note) => ({
        kind: 'reviewEstimate',
        carId: view.car.carId,
        payload: { repairId: view.repair.id, note },
      })}
    >
      <p>
        The layers are graded, so the hours can be judged anew. If they no longer fit, raise a variation on
        the car first; work beyond what is authorised waits for its payer.
      </p>
      <ul className="lines">
        {view.section.layers.map((layer) => (
          <li key={layer.id} className="line">
            {layer.name}
            <span className="quiet">{[layer.grade, layer.decision].filter(Boolean).join(', ')}</span>
          </li>
        ))}
      </ul>
    </ReasonDialog>
  )
}

export function NotNeededDialog({ gate, onClose }: Closing & { readonly gate: Gate }) {
  const { view } = useRepair()
  const title = `${gate} is not needed`
  return (
    <ReasonDialog
      title={title}
      label="Why it is not needed"
      submit={GO_ON_TO_SIGN}
      onClose={onClose}
      act={(reason) => ({
        kind: 'markNotNeeded',
        carId: view.car.carId,
        payload: { repairId: view.repair.id, gate, reason },
        sign: { title, says: [`${view.repair.name}, ${view.car.name}`, `Reason: ${reason}`] },
      })}
    >
      <p>Its hours are given back. The reason stays on record for ever.</p>
    </ReasonDialog>
  )
}

export function RetireDialog({ onClose }: Closing) {
  const { view } = useRepair()
  const title = `Retire ${view.repair.name}`
  return (
    <ReasonDialog
      title={title}
      label="Why it is retired"
      submit={GO_ON_TO_SIGN}
      onClose={onClose}
      act={(reason) => ({
        kind: 'retireRepair',
        carId: view.car.carId,
        payload: { repairId: view.repair.id, reason },
        sign: { title, says: [`On ${view.car.name}`, `Reason: ${reason}`] },
      })}
    >
      <p>Its facts stay where they happened; what is not spent of its hours is given back.</p>
    </ReasonDialog>
  )
}
