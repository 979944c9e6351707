import { useQuery } from '@tanstack/react-query'
import type { CarId } from '../../domain/ids.ts'
import type { PlanHistoryRow } from '../../domain/views/plan-view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { dayOr } from './day-or.ts'
import { FinishHistory } from './finish-history.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'

const WHY: Readonly<Record<PlanHistoryRow['why'], string>> = {
  taken: 'plan taken',
  'day end': 'end of the day',
  moved: 'moved by a day or more',
}

/** How the finish of a car moved from kept plan to kept plan, and what moved it. */
export function HistoryDialog({ carId, onClose }: { readonly carId: CarId; readonly onClose: () => void }) {
  const { names } = useShownPlan()
  const when = useWhen()
  const query = useQuery(api.planHistory.queryOptions({ carId }))
  const promised = names.row(carId)?.promised ?? null
  return (
    <Dialog
      title={`How the finish of the ${names.car(carId)} has moved`}
      isOpen
      onClose={onClose}
      size="wide"
    >
      <Loaded query={query}>
        {(rows) =>
          rows.length === 0 ? (
            <p className="quiet">
              No plan has been kept yet. One is kept when it is taken, at the end of each day, and when this
              finish moves by a day or more.
            </p>
          ) : (
            <>
              <FinishHistory rows={rows} promised={promised} />
              <TableFrame label="Kept plans">
                <table className="table">
                  <thead>
                    <tr>
                      <th scope="col">Kept</th>
                      <th scope="col">50 %</th>
                      <th scope="col">80 %</th>
                      <th scope="col">Because</th>
                    </tr>
                  </thead>
                  <tbody>
                    {rows.map((row) => (
                      <tr key={`${row.planId} ${row.keptAt}`}>
                        <th scope="row" className={styles.date}>
                          {when.dayAndTime(row.keptAt)}
                        </th>
                        <td className={styles.date}>{dayOr(row.finish50, when.day)}</td>
                        <td className={styles.date}>{dayOr(row.finish80, when.day)}</td>
                        <td>{row.cause === '' ? WHY[row.why] : `${WHY[row.why]}: ${row.cause}`}</td>
                      </tr>
                    ))}
                  </tbody>
                </table>
              </TableFrame>
            </>
          )
        }
      </Loaded>
    </Dialog>
  )
}
