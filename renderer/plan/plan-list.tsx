import { useMemo } from 'react'
import { useNavigate } from '@tanstack/react-router'
import { planRows, type PlanRow } from '../../domain/drawing/plan-rows.ts'
import { dayEnd } from '../../domain/time/zone.ts'
import { ChoiceRow } from '../parts/form/fields.tsx'
import { PLAN_LISTS, type PlanListName } from '../parts/sheets/plan-sheets.ts'
import { BayLines, CarLines, PersonLines } from './list-lines.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'

const WORDS: Readonly<Record<PlanListName, string>> = { people: 'by person', bays: 'by bay', cars: 'by car' }

/** The plan in words: what the drawing shows, for who reads or listens, and on a phone. */
export function PlanList({ by }: { readonly by: PlanListName }) {
  const { view, plan } = useShownPlan()
  const navigate = useNavigate()
  const rows = useMemo(() => planRows(view, plan, (date) => dayEnd(date, view.zone)), [view, plan])
  return (
    <div className="stack">
      <ChoiceRow
        label="In order"
        choices={PLAN_LISTS.map((value) => ({ value, words: WORDS[value] }))}
        value={by}
        onChange={(next) =>
          void navigate({ to: '/plan', search: { sheet: 'list', by: next }, replace: true })
        }
      />
      <div className={styles.lists}>
        {by === 'people' && rows.filter(isOfPerson).map((row) => <PersonLines key={row.key} row={row} />)}
        {by === 'bays' && rows.filter(isOfBay).map((row) => <BayLines key={row.key} row={row} />)}
        {by === 'cars' && plan.cars.map((car) => <CarLines key={car.carId} car={car} />)}
      </div>
    </div>
  )
}

const isOfPerson = (row: PlanRow) => row.kind === 'person'
const isOfBay = (row: PlanRow) => row.kind === 'bay'
