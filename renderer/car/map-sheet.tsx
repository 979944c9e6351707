import { useNavigate, useSearch } from '@tanstack/react-router'
import { useState } from 'react'
import type { RepairCard } from '../../domain/views/shared-views.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { ClosingMap } from './closing-map.tsx'
import { EmptyState, Notice } from '../parts/form/notice.tsx'
import { AddRepairDialog } from './add-repair-dialog.tsx'
import styles from './car.module.css'
import { FitGroupList } from './fit-group-list.tsx'
import { HoldList } from './hold-list.tsx'
import { RepairSide } from './repair-side.tsx'
import { SafetyList } from './safety-list.tsx'
import { TaskList } from './task-list.tsx'

/** The heart of a car: what covers what, and beside it the section of the repair that is looked at. */
export function MapSheet({ view }: { readonly view: CarView }) {
  const navigate = useNavigate({ from: '/cars/$carId' })
  const search = useSearch({ from: '/cars/$carId' })
  const [isAdding, setIsAdding] = useState(false)
  const repairs = view.repairs.filter((repair) => !repair.retired)
  const selected = repairs.find((repair) => repair.id === search.repair) ?? foremost(repairs)
  return (
    <>
      {view.faults.map((words) => (
        <Notice key={words} kind="refused">
          <p>
            <span className="strong">Standing fault:</span> {words}
          </p>
        </Notice>
      ))}
      {repairs.length === 0 ? (
        <EmptyState
          title="No repair on this car yet"
          action={
            <Button kind="main" onClick={() => setIsAdding(true)}>
              Add a repair
            </Button>
          }
        >
          A repair is one cavity or joint that is opened, put right and closed again. Add the first one from a
          repair type, then say what covers it: the map draws itself.
        </EmptyState>
      ) : (
        <div className={styles.map}>
          <div>
            <ClosingMap
              repairs={repairs}
              covers={view.covers}
              fitGroups={view.fitGroups}
              selected={selected?.id ?? null}
              onSelect={(repair) => void navigate({ search: { repair }, replace: true, resetScroll: false })}
            />
            <div className="button-row">
              <Button onClick={() => setIsAdding(true)}>Add a repair</Button>
            </div>
          </div>
          {selected !== undefined && (
            <aside className={styles.side} aria-label="The repair that is looked at">
              <RepairSide key={selected.id} view={view} repair={selected} />
            </aside>
          )}
        </div>
      )}
      <div className={styles.below}>
        <TaskList view={view} />
        <FitGroupList view={view} />
        <SafetyList view={view} />
        <HoldList view={view} />
      </div>
      {isAdding && <AddRepairDialog view={view} onClose={() => setIsAdding(false)} />}
    </>
  )
}

/** What people will want to see first: an open repair that may go on, else one that is held, else any. */
function foremost(repairs: readonly RepairCard[]): RepairCard | undefined {
  const open = repairs.filter((repair) => repair.next !== null)
  return (
    open.find((repair) => repair.standsOpen && repair.holds.length === 0) ??
    open.find((repair) => repair.standsOpen) ??
    open[0] ??
    repairs[0]
  )
}
