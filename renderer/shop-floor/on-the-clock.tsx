import { Link } from '@tanstack/react-router'
import type { ReactNode } from 'react'
import type { CarId } from '../../domain/ids.ts'
import { joinWords, runningTime } from '../../domain/text/words.ts'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { useNow } from '../parts/frame/use-now.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './shop-floor.module.css'

/** Who is clocked on where since when, who is in without a clock, and who does not come today. */
export function OnTheClock({ view }: { readonly view: ShopFloorView }) {
  const { clockedOn } = view
  return (
    <section className="stack-tight" aria-label="On the clock">
      <h2 className="minor">On the clock</h2>
      {clockedOn.length === 0 && <p className="quiet">Nobody is clocked on.</p>}
      <ul className={styles.clocks}>
        {clockedOn.map((clock) => (
          <li key={clock.entryId}>
            <ToItsWork clock={clock}>
              <Clocked clock={clock} />
            </ToItsWork>
          </li>
        ))}
      </ul>
      <Others view={view} />
    </section>
  )
}

function Clocked({ clock }: { readonly clock: ClockView }) {
  const when = useWhen()
  const now = useNow()
  return (
    <>
      <span className={styles.who}>
        <span className="strong">{clock.person}</span>
        <span className={styles.time}>{runningTime(now - clock.since)}</span>
      </span>
      <span className={styles.on}>{clock.what}</span>
      <span className="small quiet">
        {clock.carId === null ? 'workshop time' : clock.carName}, since {when.short(clock.since)}
        {clock.hotWork && ', hot work'}
        {clock.rework && <span className="is-accent strong">, rework</span>}
        {clock.pastDayEnd && <span className="is-accent strong">, past the day’s end</span>}
      </span>
    </>
  )
}

/** Opens the repair of a clock on gates, the car of one on tasks; time on the workshop has no page. */
function ToItsWork({ clock, children }: { readonly clock: ClockView; readonly children: ReactNode }) {
  if (clock.carId === null || clock.on.kind === 'workshop')
    return <div className={styles.clocked}>{children}</div>
  const carId = clock.carId as CarId
  const gate = clock.on.targets.find((target) => target.kind === 'gate')
  return gate === undefined ? (
    <Link to="/cars/$carId" params={{ carId }} className={styles.clocked}>
      {children}
    </Link>
  ) : (
    <Link
      to="/cars/$carId/repairs/$repairId"
      params={{ carId, repairId: gate.repairId }}
      className={styles.clocked}
    >
      {children}
    </Link>
  )
}

function Others({ view: { clockedOn, notClocked, awayToday } }: { readonly view: ShopFloorView }) {
  const when = useWhen()
  if (clockedOn.length === 0 && notClocked.length === 0 && awayToday.every(({ until }) => until === null))
    return <p className="small quiet">{awayToday.length > 0 ? 'Nobody works today.' : 'Nobody is in now.'}</p>
  const away = awayToday.map(({ person, until }) =>
    until === null ? `${person} (no working day)` : `${person} until ${when.day(until)}`,
  )
  return (
    <p className="small">
      {notClocked.length > 0 && (
        <>
          <span className="quiet">In, without a clock:</span>{' '}
          <span className="strong">{joinWords(notClocked.map(({ person }) => person))}</span>.{' '}
        </>
      )}
      {away.length > 0 && (
        <>
          <span className="quiet">Away:</span> {joinWords(away)}.
        </>
      )}
    </p>
  )
}
