import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import { hours, plural } from '../../domain/text/words.ts'
import type { OwnerDecisionsView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { AcceptEstimateDialog } from '../parts/hours/accept-estimate-dialog.tsx'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import styles from './owner-decisions.module.css'

type Unaccepted = OwnerDecisionsView['unaccepted'][number]

/** Estimates that their payer has not accepted, car by car; one button records that they have. */
export function UnacceptedList({ unaccepted }: { readonly unaccepted: OwnerDecisionsView['unaccepted'] }) {
  const [accepting, setAccepting] = useState<Unaccepted | null>(null)
  return (
    <section className="stack-tight">
      <h3>Estimates not accepted yet</h3>
      {unaccepted.length === 0 && <p className="quiet">No estimate waits for its payer.</p>}
      <ul className="lines">
        {unaccepted.map((each) => (
          <li key={`${each.carId}${each.payer}`} className={styles.answer}>
            <span>
              <Link
                to="/cars/$carId"
                params={{ carId: each.carId }}
                search={{ sheet: 'hours' }}
                className="strong"
              >
                {each.carName}
              </Link>
              <br />
              <span className="small quiet">
                {each.payer === 'owner' ? each.owner : `the ${each.payer}`}: {plural('line', each.lines)},{' '}
                {hours(each.hours)}
              </span>
            </span>
            <Button onClick={() => setAccepting(each)}>
              Record it
              <span className="hidden-word">
                {' '}
                for the {each.carName} by the {each.payer}
              </span>
            </Button>
          </li>
        ))}
      </ul>
      {accepting !== null && <Accepting unaccepted={accepting} onClose={() => setAccepting(null)} />}
    </section>
  )
}

/** The lines themselves stand on the car. */
function Accepting({
  unaccepted: { carId, carName, payer },
  onClose,
}: {
  readonly unaccepted: Unaccepted
  readonly onClose: () => void
}) {
  const car = useQuery(api.car.queryOptions({ carId }))
  if (car.data !== undefined) return <AcceptEstimateDialog view={car.data} payer={payer} onClose={onClose} />
  return (
    <Dialog title={`${carName}: the ${payer} accepts`} isOpen onClose={onClose} size="wide">
      <Loaded query={car}>{() => null}</Loaded>
    </Dialog>
  )
}
