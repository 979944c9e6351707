import { Link } from '@tanstack/react-router'
import { Button } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { isWhereItWas, type PickedUp } from './pick-up.ts'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { consequences } from './plan-words.ts'
import type { Carry } from './use-carry.ts'

/** Takes the place of the title block while a stay is carried: where it would be, what would come of it, and the way out. */
export function CarryStrip({ carry, picked }: { readonly carry: Carry; readonly picked: PickedUp }) {
  const { names } = useShownPlan()
  const when = useWhen()
  const { bayId, from, to } = picked.place
  const mayDrop = carry.foreseen.is === 'known' || (isWhereItWas(picked) && picked.isBooked)
  return (
    <section className={styles.titleBlock} aria-label="What is carried">
      <div>
        <h2 className={styles.cellName}>carried</h2>
        <div className="strong">{names.car(picked.carId)}</div>
        <div>
          {names.bay(bayId)}, {when.day(from)} to {when.day(to)}
        </div>
        <div className="quiet small">
          was in {names.bay(picked.was.bayId)}, {when.range(picked.was.from, picked.was.to)}
        </div>
      </div>
      <div className={styles.wideCell}>
        <h2 className={styles.cellName}>what comes of it</h2>
        <ForeseenWords carry={carry} />
      </div>
      <div className={`${styles.actionsCell} ${styles.carryCell}`}>
        <div className="row">
          <Button kind="main" onClick={() => carry.drop()} aria-disabled={!mayDrop}>
            Put it down here
          </Button>
          <Button onClick={carry.cancel}>Back where it was</Button>
        </div>
        <div className="row">
          <Button onClick={() => carry.moveOn({ days: -1, bays: 0 })}>a day earlier</Button>
          <Button onClick={() => carry.moveOn({ days: 1, bays: 0 })}>a day later</Button>
          <Button onClick={() => carry.moveOn({ days: 0, bays: -1 })}>bay above</Button>
          <Button onClick={() => carry.moveOn({ days: 0, bays: 1 })}>bay below</Button>
        </div>
      </div>
    </section>
  )
}

function ForeseenWords({ carry: { foreseen } }: { readonly carry: Carry }) {
  const when = useWhen()
  switch (foreseen.is) {
    case 'nothing':
      return <p className="quiet">Move it to see what would come of it.</p>
    case 'asked':
      return <p className="quiet">Reckoning…</p>
    case 'failed':
      return <p className="is-accent">{foreseen.words}</p>
    case 'known': {
      const { answer } = foreseen
      if (answer.words !== '') return <p className="is-accent">{answer.words}</p>
      const found = consequences(answer, when)
      if (found.length === 0) return <p>No car becomes later or earlier by it.</p>
      return (
        <ul className={styles.consequences}>
          {found.slice(0, MOST).map(({ carId, words, isWorse }) => (
            <li key={carId} className={isWorse ? 'is-accent strong' : undefined}>
              {words}
            </li>
          ))}
          {found.length > MOST && <li className="quiet">and {found.length - MOST} more</li>}
        </ul>
      )
    }
  }
}

const MOST = 5

/** After a stay was put down: what was booked, and the way to take it back. */
export function PutDownNote({ carry }: { readonly carry: Carry }) {
  const { putDown, refusal, takeBack } = carry
  return (
    <>
      <RefusalNote refusal={refusal} />
      {putDown !== null && (
        <p className={styles.putDown}>
          {putDown.words} It is pinned there; a newer plan is made with it.{' '}
          <Button onClick={takeBack}>Take it back</Button> <Link to="/shop-floor">all bookings</Link>
        </p>
      )}
    </>
  )
}
