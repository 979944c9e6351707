import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import type { HoursSheetView } from '../../domain/views/hours-sheet-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { AttentionList } from '../parts/gates/attention-list.tsx'
import { HoursBandLegend } from './hours-band-bar.tsx'
import { HoursLegend } from '../parts/hours/hours-bar.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { HoursEntries } from './hours-entries.tsx'
import { HoursTable } from './hours-table.tsx'
import styles from './hours.module.css'

/** Running clocks count by the minute, without any change on the host. */
const READ_EVERY_MS = 60_000

/** Hours of this visit against the estimate, live, from the whole car down to each entry. */
export function HoursSheet({ view }: { readonly view: CarView }) {
  const { carId } = view.header
  const query = useQuery(api.hoursSheet.queryOptions({ carId }, { refetchInterval: READ_EVERY_MS }))
  return <Loaded query={query}>{(sheet) => <Sheet view={view} sheet={sheet} />}</Loaded>
}

function Sheet({ view, sheet }: { readonly view: CarView; readonly sheet: HoursSheetView }) {
  const { attention, works, rests } = sheet
  return (
    <div className="stack">
      {attention.length > 0 && <AttentionList groups={attention} isOnHours />}
      {attention.length === 0 && works.length > 0 && <p className="quiet">All is as agreed on this car.</p>}
      {works.length === 0 ? (
        <EmptyState
          title="No hours yet"
          action={
            <Link
              to="/cars/$carId"
              params={{ carId: view.header.carId }}
              className="button main"
              activeOptions={{ exact: true }}
            >
              To the closing map
            </Link>
          }
        >
          Here the hours that were agreed stand against those that were spent, gate by gate. Add repairs on
          the closing map: each brings the hours of its type as an estimate, which its payer then accepts.
        </EmptyState>
      ) : (
        <>
          <HoursTable view={sheet} />
          <div>
            <HoursLegend />
            <HoursBandLegend />
          </div>
          <p className={`small quiet ${styles.legend}`}>
            Expected is what is spent and what is still to do of the authorised work. {rests} Variance is
            earned less spent, index earned by spent: above zero, and above one, the work took less than was
            authorised for what is done.
          </p>
        </>
      )}
      <HoursEntries entries={view.entries} />
    </div>
  )
}
