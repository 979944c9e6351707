import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import type { FloorBayView } from './floor-plan.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { useWhen } from '../parts/frame/when.tsx'

const BringBackDialog = onDemand(async () => (await import('./bring-back-dialog.tsx')).BringBackDialog)

type AwayCar = ShopFloorView['away'][number]

/** Shells at other firms, and when they are expected. */
export function AwayList({
  away,
  bays,
}: {
  readonly away: readonly AwayCar[]
  readonly bays: readonly FloorBayView[]
}) {
  const when = useWhen()
  const [back, setBack] = useState<AwayCar | null>(null)
  if (away.length === 0) return null
  return (
    <section>
      <h2 className="minor">Away</h2>
      <ul className="lines">
        {away.map((car) => (
          <li key={car.carId} className="line">
            <span>
              <Link to="/cars/$carId" params={{ carId: car.carId }} className="strong reaching">
                {car.name}
              </Link>{' '}
              at {car.firm}: {car.what};{' '}
              <span className={car.overdue ? 'is-accent' : 'quiet'}>
                {car.overdue ? 'overdue, was expected' : 'expected'} {when.day(car.expected)}
              </span>
            </span>
            <Button onClick={() => setBack(car)}>It is back</Button>
          </li>
        ))}
      </ul>
      {back !== null && <BringBackDialog car={back} bays={bays} onClose={() => setBack(null)} />}
    </section>
  )
}
