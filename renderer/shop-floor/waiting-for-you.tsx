import { Link } from '@tanstack/react-router'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { useWhen } from '../parts/frame/when.tsx'

/** What only the manager can settle, each with the way to it. */
export function WaitingForYou({ forYou }: { readonly forYou: ShopFloorView['forYou'] }) {
  const when = useWhen()
  const { releases, decisions, faults, reviews } = forYou
  const isNothing = [releases, decisions, faults, reviews].every((list) => list.length === 0)
  return (
    <section>
      <h2 className="minor">Waiting for you</h2>
      {isNothing && (
        <p className="quiet">
          Nothing. Releases, reviews, faults and decisions that need you will stand here.
        </p>
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
    </section>
  )
}
