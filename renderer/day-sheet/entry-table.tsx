import { useState } from 'react'
import { hours } from '../../domain/text/words.ts'
import type { DaySheetView, EntryView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './day-sheet.module.css'

const CorrectTimeDialog = onDemand(async () => (await import('./correct-time-dialog.tsx')).CorrectTimeDialog)

/** This week's entries by day, the latest first; each can be corrected, and the old one is kept. */
export function EntryTable({ view }: { readonly view: DaySheetView }) {
  const when = useWhen()
  const [open, setOpen] = useState<EntryView | null>(null)
  const days = [...Map.groupBy(view.entries, ({ date }) => date)]
  return (
    <section>
      <h2>My week</h2>
      {days.length === 0 && <p className="quiet">No time this week yet. It fills as you clock in and out.</p>}
      {days.map(([date, entries]) => (
        <div key={date} className={styles.day}>
          <h3>
            {when.day(date)}{' '}
            <span className="quiet">{hours(entries.reduce((sum, entry) => sum + entry.hours, 0))}</span>
          </h3>
          <ul className="lines">
            {entries.map((entry) => (
              <li key={entry.entryId} className={styles.entry}>
                <span className={styles.span}>{spanWords(entry, when.time)}</span>
                <span>
                  {entry.what}
                  {entry.rework && (
                    <span className="is-accent small"> rework, {entry.cause ?? 'reopened'}</span>
                  )}
                  {!entry.confirmed && <span className="is-accent small"> to be confirmed</span>}
                </span>
                <span className="number">{hours(entry.hours, 2)}</span>
                {entry.running ? (
                  <span className="quiet small">runs</span>
                ) : (
                  <WordButton onClick={() => setOpen(entry)}>
                    correct<span className="hidden-word"> {entry.what}</span>
                  </WordButton>
                )}
              </li>
            ))}
          </ul>
        </div>
      ))}
      {open !== null && <CorrectTimeDialog entry={open} onClose={() => setOpen(null)} />}
    </section>
  )
}

function spanWords({ start, end }: EntryView, time: (at: number) => string): string {
  if (start === null) return 'whole day'
  return `${time(start)} to ${end === null ? '…' : time(end)}`
}
