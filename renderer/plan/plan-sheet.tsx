import { useCallback, useMemo, useState, type ReactNode } from 'react'
import { layOutPlan } from '../../domain/drawing/plan-layout.ts'
import { planRows, type PlanRow } from '../../domain/drawing/plan-rows.ts'
import { daysUntil } from '../../domain/drawing/plan-scale.ts'
import type { CarId } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { dayEnd } from '../../domain/time/zone.ts'
import { useNow } from '../parts/frame/use-now.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { CarTable } from './car-table.tsx'
import { CarryStrip } from './carry-strip.tsx'
import type { BlockLook } from './drawn-block.tsx'
import type { Marks } from './drawn-field.tsx'
import { blockAt, findBlock } from './find-block.ts'
import { useShownPlan } from './plan-context.ts'
import { PlanDrawing } from './plan-drawing.tsx'
import { daysLate } from './plan-words.ts'
import styles from './plan.module.css'
import { TitleBlock } from './title-block.tsx'
import { useCarry } from './use-carry.ts'
import { useTimeView } from './use-time-view.ts'
import { ZoomBar } from './zoom-bar.tsx'

/** Days of air behind the last thing that is drawn. */
const AIR = 6

/** The drawing with what goes with it: zoom, what is carried, what is chosen, and the cars by their hatchings. */
export function PlanSheet({ tabs }: { readonly tabs: ReactNode }) {
  const shown = useShownPlan()
  const { view, plan, names } = shown
  const when = useWhen()
  const now = useNow(60_000)
  const [chosenKey, setChosenKey] = useState<string | null>(null)
  const [said, say] = useState('')

  const rows = useMemo(() => planRows(view, plan, (date) => dayEnd(date, view.zone)), [view, plan])
  const days = useMemo(() => daysUntil(view.days, lastMoment(rows, view.zone), view.zone), [rows, view])
  const time = useTimeView(days, view.now)
  const laid = useMemo(() => layOutPlan(rows, time.scale, names), [rows, time.scale, names])
  const late = useMemo(
    () => new Map(plan.cars.map((car) => [car.carId, daysLate(car, when)] as const)),
    [plan, when],
  )
  const look = useMemo<BlockLook>(
    () => ({ names, scale: time.scale, days, late }),
    [names, time.scale, days, late],
  )
  const carry = useCarry(shown, when, say)
  const heldKey = carry.picked?.key ?? null
  const chosen = chosenKey === null ? null : findBlock(laid.rows, chosenKey)
  const chosenBlock = chosen === null ? undefined : blockAt(laid.rows, chosen)?.block
  const carId = chosenBlock !== undefined && 'carId' in chosenBlock ? chosenBlock.carId : null
  const marks = useMemo<Marks>(() => ({ key: chosenKey, carId, heldKey }), [chosenKey, carId, heldKey])
  const chooseCar = useCallback((id: CarId) => setChosenKey(`finish ${id}`), [])

  return (
    <div className="stack">
      <div>
        <div className={styles.bar}>
          {tabs}
          <ZoomBar time={time} now={now} />
        </div>
        <PlanDrawing
          rows={laid.rows}
          height={laid.height}
          days={days}
          look={look}
          marks={marks}
          time={time}
          now={now}
          carry={carry}
          onChoose={setChosenKey}
        />
        {carry.picked === null ? (
          <TitleBlock
            block={chosenBlock ?? null}
            row={chosen?.block === -1 ? (laid.rows[chosen.row]?.row ?? null) : null}
            carry={carry}
            onChoose={setChosenKey}
          />
        ) : (
          <CarryStrip carry={carry} picked={carry.picked} />
        )}
        <p className="hidden-word" role="status">
          {said}
        </p>
      </div>
      <CarTable onChoose={chooseCar} />
    </div>
  )
}

function lastMoment(rows: readonly PlanRow[], zone: string): number {
  const last = Math.max(0, ...rows.flatMap((row) => row.blocks.map((block) => block.to)))
  return last === 0 ? 0 : dayEnd(addDays(new Date(last).toISOString().slice(0, 10), AIR), zone)
}
