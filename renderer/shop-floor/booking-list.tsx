import { useState } from 'react'
import type { BookingId } from '../../domain/ids.ts'
import type { BookingView } from '../../domain/views/view-shapes.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import type { FloorBayView } from './floor-plan.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './shop-floor.module.css'

const ChangeBookingDialog = onDemand(
  async () => (await import('./change-booking-dialog.tsx')).ChangeBookingDialog,
)

/** Every booking that is not over, the earliest first. */
export function BookingList({
  bays,
  onBook,
}: {
  readonly bays: readonly FloorBayView[]
  readonly onBook: () => void
}) {
  const when = useWhen()
  const command = useCommand()
  const [changing, setChanging] = useState<BookingView | null>(null)
  const bookings = bays.flatMap((bay) => bay.bookings).toSorted((a, b) => a.from.localeCompare(b.from))
  const cancel = (booking: BookingView) =>
    void command.send({
      kind: 'cancelBooking',
      carId: booking.carId,
      payload: { bookingId: booking.bookingId as BookingId, reason: '' },
    })
  return (
    <section className="stack-tight">
      <div className="spread">
        <h2 className="minor">Bookings</h2>
        <Button onClick={onBook}>Book a car into a bay</Button>
      </div>
      {bookings.length === 0 && <p className="quiet">No car is booked into a bay.</p>}
      <ul className="lines">
        {bookings.map((booking) => (
          <li key={booking.bookingId} className="line">
            <span>
              <span className="strong">{booking.carName}</span> in {booking.bayName},{' '}
              <span className={styles.whole}>{when.range(booking.from, booking.to)}</span>
            </span>
            <span className="row">
              <WordButton onClick={() => setChanging(booking)}>change</WordButton>
              <WordButton onClick={() => cancel(booking)}>cancel it</WordButton>
            </span>
          </li>
        ))}
      </ul>
      <RefusalNote refusal={command.refusal} />
      {changing !== null && (
        <ChangeBookingDialog booking={changing} bays={bays} onClose={() => setChanging(null)} />
      )}
    </section>
  )
}
