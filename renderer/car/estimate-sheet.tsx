import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import type { EstimateView } from '../../domain/views/estimate-shapes.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { AddRepairDialog } from './add-repair-dialog.tsx'
import { EstimateLines } from './estimate-lines.tsx'
import { EstimateMovers } from './estimate-movers.tsx'
import { EstimatePayers } from './estimate-payers.tsx'
import { EstimateRepairs } from './estimate-repairs.tsx'
import { EstimateWhole } from './estimate-whole.tsx'
import styles from './estimate.module.css'

/** What the car is likely to take before and after its repairs are opened, and what that rests on. */
export function EstimateSheet({ view }: { readonly view: CarView }) {
  const { carId } = view.header
  const query = useQuery(api.estimate.queryOptions({ carId }))
  return <Loaded query={query}>{(estimate) => <Estimate view={view} estimate={estimate} />}</Loaded>
}

function Estimate({ view, estimate }: { readonly view: CarView; readonly estimate: EstimateView }) {
  const [isAdding, setIsAdding] = useState(false)
  const { repairs, tasks, visitId } = estimate
  const add = () => setIsAdding(true)
  return (
    <div className="stack">
      {repairs.length === 0 && tasks.length === 0 ? (
        <FirstStep hasVisit={visitId !== null} onAdd={add} />
      ) : (
        <>
          <EstimateWhole view={view} estimate={estimate} onAdd={add} />
          <div className={styles.pair}>
            <EstimateMovers movers={estimate.movers} />
            <EstimatePayers view={view} payers={estimate.payers} />
          </div>
          {repairs.length > 0 && <EstimateRepairs view={view} estimate={estimate} />}
          {tasks.length > 0 && (
            <section className="stack-tight">
              <h3>Tasks</h3>
              <EstimateLines view={view} lines={view.estimate.filter(({ taskId }) => taskId !== null)} />
            </section>
          )}
        </>
      )}
      {isAdding && <AddRepairDialog view={view} onClose={() => setIsAdding(false)} />}
    </div>
  )
}

function FirstStep({ hasVisit, onAdd }: { readonly hasVisit: boolean; readonly onAdd: () => void }) {
  if (!hasVisit)
    return (
      <EmptyState title="No visit yet">
        An estimate belongs to a visit. Open one from the menu of this car, then add its repairs.
      </EmptyState>
    )
  return (
    <EmptyState
      title="Nothing is estimated yet"
      action={
        <Button kind="main" onClick={onAdd}>
          Add a repair
        </Button>
      }
    >
      Add the first repair from a repair type: it brings its hours. Then say how its outermost layer looks,
      and you see how likely it is that the metal behind is worse, and how many hours that may take.
    </EmptyState>
  )
}
