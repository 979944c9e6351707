import type { CarId } from '../../domain/ids.ts'
import type { RepairCard } from '../../domain/views/shared-views.ts'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'

/** Takes a link away; it stands in the record and the car's file for ever. */
export function UnlinkDialog({
  carId,
  over,
  under,
  onClose,
}: {
  readonly carId: CarId
  readonly over: RepairCard
  readonly under: RepairCard
  readonly onClose: () => void
}) {
  return (
    <ReasonDialog
      title="Remove this link"
      submit="Remove it"
      onClose={onClose}
      label="Reason"
      act={(reason) => ({
        kind: 'unlinkCover',
        carId,
        payload: { over: over.id, under: under.id, reason },
        sign: {
          title: 'Remove a link',
          says: [`${over.name} does not cover ${under.name}.`, `Reason: ${reason}`],
          confirm: 'Remove it',
        },
      })}
    >
      <p>
        {over.name} covers {under.name}. Without the link nothing keeps {over.name} from being closed before{' '}
        {under.name} is finished. The removal stays in the record and in the car’s file.
      </p>
    </ReasonDialog>
  )
}
