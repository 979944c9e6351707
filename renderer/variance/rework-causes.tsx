import { Link } from '@tanstack/react-router'
import { hours } from '../../domain/text/words.ts'
import type { VarianceView } from '../../domain/views/variance-shapes.ts'
import styles from './variance.module.css'

/** Hours on gates that were passed before, by cause. */
export function ReworkCauses({ causes }: { readonly causes: VarianceView['rework'] }) {
  const most = Math.max(0.1, ...causes.map((cause) => cause.hours))
  return (
    <section className="stack-tight">
      <h2>Rework</h2>
      {causes.length === 0 ? (
        <p className="quiet">No hours were logged on a gate that had been passed or reopened.</p>
      ) : (
        <ul className={styles.causes}>
          {causes.map((cause) => (
            <li key={cause.cause} className={styles.cause}>
              <Link to="/variance" search={{ by: 'cause', key: cause.cause }}>
                {cause.cause}
              </Link>
              <div className={styles.causeTrack} aria-hidden="true">
                <div className={styles.over} style={{ left: 0, width: `${(100 * cause.hours) / most}%` }} />
              </div>
              <span className="number strong">{hours(cause.hours)}</span>
            </li>
          ))}
        </ul>
      )}
    </section>
  )
}
