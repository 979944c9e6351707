import { useState } from 'react'
import { hours } from '../../domain/text/words.ts'
import type { EntryView } from '../../domain/views/view-shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { useWhen, type When } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'

const SHOWN = 8

/** Time on this repair, the latest first. */
export function EntryList() {
  const { view } = useRepair()
  const when = useWhen()
  const [isAll, setIsAll] = useState(false)
  const entries = view.entries.toSorted((a, b) => b.number - a.number)
  const total = entries.reduce((sum, entry) => sum + entry.hours, 0)
  return (
    <section className="stack-tight">
      <h3>Time{entries.length > 0 && ` ${hours(total)}`}</h3>
      {entries.length === 0 && (
        <p className="quiet">No time yet. Clock in at the bottom; the hours are counted here.</p>
      )}
      <ul className="lines">
        {entries.slice(0, isAll ? entries.length : SHOWN).map((entry) => (
          <li key={entry.entryId} className="line">
            <span>
              {entry.person} <span className="quiet">{entry.what}</span>
              <br />
              <span className="small quiet">{spanWords(entry, when)}</span>
            </span>
            <span className="strong">{entry.running ? 'running' : hours(entry.hours, 2)}</span>
          </li>
        ))}
      </ul>
      {!isAll && entries.length > SHOWN && (
        <WordButton onClick={() => setIsAll(true)}>all {entries.length} entries</WordButton>
      )}
    </section>
  )
}

const spanWords = (entry: EntryView, when: When): string =>
  [
    when.day(entry.date),
    ...(entry.start === null
      ? []
      : [`${when.time(entry.start)} to ${entry.end === null ? '…' : when.time(entry.end)}`]),
    ...(entry.rework ? [`rework: ${entry.cause ?? 'reopened'}`] : []),
    ...(entry.by === 'hand' ? ['by hand'] : []),
    ...(entry.confirmed ? [] : ['to be confirmed']),
  ].join(', ')
