import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/button.tsx'
import { useWhen } from '../parts/when.tsx'
import { ConfirmClockDialog } from '../parts/confirm-clock-dialog.tsx'

/** What only the manager can settle, each with the way to it. */
export function WaitingForYou({ forYou }: { readonly forYou: ShopFloorView['forYou'] }) {
  const when = useWhen()
  const [clock, setClock] = useState<ClockView | null>(null)
  const { releases, clocks, decisions, faults, reviews } = forYou
  const isNothing = [releases, clocks, decisions, faults, reviews].every((list) => list.length === 0)
  return (
    <section>
      <h2 className="minor">Waiting for you</h2>
      {isNothing && (
        <p className="quiet">Nothing. Releases, clocks, reviews and faults that need you will stand here.</p>
      )}
      <ul className="lines">
        {faults.map(({ carId, carName, words }) => (
          <li key={`${carId}${words}`} className="line">
            <span>
              <span className="strong is-accent">fault</span> {carName}: {words}
            </span>
            <Link to="/cars/$carId" params={{ carId }}>
              closing map
            </Link>
          </li>
        ))}
        {releases.map(({ carId, carName, repairId, words, asked }) => (
          <li key={`${repairId}${asked}`} className="line">
            <span>
              <span className="strong">release</span> {carName}: {words}{' '}
              <span className="quiet">since {when.short(asked)}</span>
            </span>
            <Link to="/cars/$carId/repairs/$repairId" params={{ carId, repairId }}>
              look at it
            </Link>
          </li>
        ))}
        {clocks.map((each) => (
          <li key={each.entryId} className="line">
            <span>
              <span className="strong">clock</span> {each.person}, {each.what}: past the end of the day,
              counted to {when.short(each.countsTo)}
            </span>
            <Button onClick={() => setClock(each)}>When did it stop?</Button>
          </li>
        ))}
        {reviews.map(({ carId, carName, repairId, repairName }) => (
          <li key={repairId} className="line">
            <span>
              <span className="strong">review</span> {carName}: the estimate of {repairName} after it was
              assessed
            </span>
            <Link to="/cars/$carId/repairs/$repairId" params={{ carId, repairId }}>
              look at it
            </Link>
          </li>
        ))}
        {decisions.map(({ carId, carName, title, since }) => (
          <li key={`${carId}${title}`} className="line">
            <span>
              <span className="strong">owner</span> {carName}: {title}{' '}
              <span className="quiet">since {when.short(since)}</span>
            </span>
            <Link to="/cars/$carId" params={{ carId }} search={{ sheet: 'decisions' }}>
              the decision
            </Link>
          </li>
        ))}
      </ul>
      {clock !== null && <ConfirmClockDialog clock={clock} onClose={() => setClock(null)} />}
    </section>
  )
}
