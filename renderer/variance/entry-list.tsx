import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { CarId } from '../../domain/ids.ts'
import { hours, plural } from '../../domain/text/words.ts'
import type { DrillGrouping } from '../../domain/value/variance-groups.ts'
import type { VarianceEntries } from '../../domain/views/variance-shapes.ts'
import { api } from '../client.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './variance.module.css'

/** The single time entries behind one car's part of a figure. */
export function EntryList({
  grouping,
  of: key,
  carId,
}: {
  readonly grouping: DrillGrouping
  readonly of: string
  readonly carId: CarId
}) {
  const asked = { grouping, key, carId }
  const query = useQuery(api.varianceEntries.queryOptions(asked))
  const file = `/variance/entries.csv?${new URLSearchParams(asked).toString()}`
  return (
    <section className="stack-tight">
      <Loaded query={query}>
        {(view) => (
          <>
            <h3>
              {plural('time entry', view.entries.length, 'time entries')}{' '}
              {view.entries.length > 0 && (
                <a className="small" href={file} download>
                  save as CSV
                </a>
              )}
            </h3>
            {view.entries.length === 0 ? (
              <p className="quiet">No time is logged behind this figure yet.</p>
            ) : (
              <Entries entries={view.entries} />
            )}
          </>
        )}
      </Loaded>
    </section>
  )
}

/** As many as are read at a glance; the rest on demand. */
const FIRST_SHOWN = 40

function Entries({ entries }: Pick<VarianceEntries, 'entries'>) {
  const [showsAll, setShowsAll] = useState(false)
  const shown = showsAll ? entries : entries.slice(0, FIRST_SHOWN)
  return (
    <>
      <EntryTable entries={shown} />
      {shown.length < entries.length && (
        <WordButton onClick={() => setShowsAll(true)}>
          show the {plural('earlier entry', entries.length - shown.length, 'earlier entries')} too
        </WordButton>
      )}
    </>
  )
}

function EntryTable({ entries }: Pick<VarianceEntries, 'entries'>) {
  const when = useWhen()
  return (
    <TableFrame label="Time entries">
      <table className={styles.table}>
        <thead>
          <tr>
            <th scope="col">day</th>
            <th scope="col">who</th>
            <th scope="col" className="number">
              hours
            </th>
            <th scope="col">on</th>
            <th scope="col">what about it</th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry) => (
            <tr key={entry.entryId}>
              <th scope="row">{when.day(entry.date)}</th>
              <td>{entry.person ?? <span className="quiet">not shown</span>}</td>
              <td className="number">{hours(entry.hours, 2)}</td>
              <td>{entry.what}</td>
              <td>{aboutWords(entry)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </TableFrame>
  )
}

function aboutWords({
  hours: counted,
  ofHours,
  causes,
  onReleased,
  running,
  note,
}: VarianceEntries['entries'][number]): string {
  return [
    ...(running ? ['still running'] : []),
    ...(ofHours - counted > 0.005 ? [`part of ${hours(ofHours, 2)}`] : []),
    ...(causes.length > 0 ? [`rework: ${causes.join(', ')}`] : []),
    ...(onReleased > 0.005 ? [`${hours(onReleased, 2)} on a released hold`] : []),
    ...(note === '' ? [] : [note]),
  ].join('; ')
}
