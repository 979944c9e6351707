import type { BookingId } from '../../domain/ids.ts'
import type { BookingView } from '../../domain/views/view-shapes.ts'
import { isSettled } from '../parts/form/settled.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import type { FloorBayView } from './floor-plan.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { BookingFields, bookingSchema } from './booking-fields.tsx'

export function ChangeBookingDialog({
  booking,
  bays,
  onClose,
}: {
  readonly booking: BookingView
  readonly bays: readonly FloorBayView[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { bayId, from, to } = booking
  const form = useZodForm(bookingSchema, { bayId, from, to })
  return (
    <Dialog title={`Booking of the ${booking.carName}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Change it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (changed) => {
          const payload = { bookingId: booking.bookingId as BookingId, ...changed }
          const outcome = await command.send({ kind: 'changeBooking', carId: booking.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <BookingFields form={form} bays={bays} />
      </Form>
    </Dialog>
  )
}
