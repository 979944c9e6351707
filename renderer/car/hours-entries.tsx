import { useState } from 'react'
import { hours } from '../../domain/text/words.ts'
import type { EntryView } from '../../domain/views/view-shapes.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { WordButton } from '../parts/form/button.tsx'
import styles from './hours.module.css'

const SHOWN_AT_FIRST = 20

/** All time on the car, of earlier visits too, the latest first. */
export function HoursEntries({ entries }: { readonly entries: readonly EntryView[] }) {
  const when = useWhen()
  const [isAll, setIsAll] = useState(false)
  const shown = isAll ? entries : entries.slice(0, SHOWN_AT_FIRST)
  return (
    <section className={`stack-tight ${styles.entries}`}>
      <h3>Entries</h3>
      {entries.length === 0 && <p className="quiet">Nobody has logged time on this car yet.</p>}
      <ul className="lines">
        {shown.map((entry) => (
          <li key={entry.entryId} className="line">
            <span>
              <span className="strong">{entry.person}</span>, {entry.what}{' '}
              <span className="quiet small">
                {when.day(entry.date)}
                {entry.start !== null && `, ${when.time(entry.start)}`}
                {entry.end !== null && ` to ${when.time(entry.end)}`}
                {entry.by === 'hand' && ', by hand'}
                {!entry.confirmed && ', end not confirmed'}
                {entry.rework && `, rework${entry.cause === null ? '' : `: ${entry.cause}`}`}
              </span>
            </span>
            <span className="strong">
              {entry.running ? `${hours(entry.hours)}, running` : hours(entry.hours, 2)}
            </span>
          </li>
        ))}
      </ul>
      {entries.length > SHOWN_AT_FIRST && !isAll && (
        <WordButton onClick={() => setIsAll(true)}>all {entries.length} entries</WordButton>
      )}
    </section>
  )
}
