import { isSettled } from '../parts/form/settled.ts'
import { useState } from 'react'
import { addDays } from '../../domain/time/local-date.ts'
import type { BookingId, CarId } from '../../domain/ids.ts'
import type { CarLine, ShopFloorView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { SelectInput } from '../parts/form/inputs.tsx'
import type { FloorBayView } from './floor-plan.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { BookingFields, bookingSchema } from './booking-fields.tsx'

/** Books a car into a bay; a clash is refused with who has the bay and when. */
export function BookBayDialog({
  view,
  car,
  bay,
  onClose,
}: {
  readonly view: ShopFloorView
  readonly car: CarLine | null
  readonly bay: FloorBayView | null
  readonly onClose: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const cars = [...view.bays.flatMap((each) => each.cars), ...view.nowhere, ...view.away]
  const [carId, setCarId] = useState<CarId | null>(car?.carId ?? null)
  const form = useZodForm(bookingSchema, {
    ...(bay !== null && { bayId: bay.id }),
    from: when.today,
    to: addDays(when.today, 13),
  })
  return (
    <Dialog title="Book a car into a bay" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Book it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (booking) => {
          if (carId === null) return
          const payload = { bookingId: newId<BookingId>(), ...booking }
          const outcome = await command.send({ kind: 'bookBay', carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <SelectInput
          label="Car"
          choices={cars.map((each) => ({
            value: each.carId,
            words: `${each.name}, shell ${each.shellNumber}`,
          }))}
          value={carId}
          onChange={setCarId}
          none="choose a car"
          error={form.formState.isSubmitted && carId === null ? 'Choose one.' : undefined}
        />
        <BookingFields form={form} bays={view.bays} />
      </Form>
    </Dialog>
  )
}
