import { Link } from '@tanstack/react-router'
import { hours } from '../../domain/text/words.ts'
import type { VarianceView } from '../../domain/views/variance-shapes.ts'
import styles from './variance.module.css'

/** Where hours are lost, and why: the largest first, each a sentence that leads to what it is made of. */
export function Losses({ losses }: { readonly losses: VarianceView['losses'] }) {
  const most = Math.max(0.1, ...losses.map((loss) => loss.hours))
  return (
    <section className="stack-tight">
      <h2>Where hours are lost, and why</h2>
      {losses.length === 0 ? (
        <p className="quiet">
          Nothing takes more than is authorised, and nothing was done twice. What will, is named here.
        </p>
      ) : (
        <ol className={styles.losses}>
          {losses.map(({ grouping, key, hours: lost, words }) => (
            <li key={`${grouping}/${key}`} className={styles.loss}>
              <span className="number strong is-accent">{hours(lost)}</span>
              <div className={styles.causeTrack} aria-hidden="true">
                <div className={styles.over} style={{ left: 0, width: `${(100 * lost) / most}%` }} />
              </div>
              <Link to="/variance" search={{ by: grouping, key }}>
                {words}
              </Link>
            </li>
          ))}
        </ol>
      )}
    </section>
  )
}
