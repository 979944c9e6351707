import { useMemo } from 'react'
import { useNavigate } from '@tanstack/react-router'
import { planRows, type PlanRow } from '../../domain/drawing/plan-rows.ts'
import { dayEnd } from '../../domain/time/zone.ts'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { PLAN_LISTS, type PlanListName } from '../parts/sheets/plan-sheets.ts'
import { PageByPage } from '../parts/frame/long-list.tsx'
import { BayLines, CarLines, PersonLines } from './list-lines.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'

const WORDS: Readonly<Record<PlanListName, string>> = { people: 'by person', bays: 'by bay', cars: 'by car' }

/** As many as stand in one row of the widest screen: the next row begins below most windows. */
const GROUPS = 4

/** The plan in words: what the drawing shows, for who reads or listens, and on a phone. */
export function PlanList({ by }: { readonly by: PlanListName }) {
  const { view, plan } = useShownPlan()
  const navigate = useNavigate()
  const rows = useMemo(() => planRows(view, plan, (date) => dayEnd(date, view.zone)), [view, plan])
  const people = useMemo(() => rows.filter(isOfPerson), [rows])
  const bays = useMemo(() => rows.filter(isOfBay), [rows])
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
        {by === 'people' && (
          <PageByPage items={people} page={GROUPS}>
            {(row) => <PersonLines key={row.key} row={row} />}
          </PageByPage>
        )}
        {by === 'bays' && (
          <PageByPage items={bays} page={GROUPS}>
            {(row) => <BayLines key={row.key} row={row} />}
          </PageByPage>
        )}
        {by === 'cars' && (
          <PageByPage items={plan.cars} page={GROUPS}>
            {(car) => <CarLines key={car.carId} car={car} />}
          </PageByPage>
        )}
      </div>
    </div>
  )
}

const isOfPerson = (row: PlanRow) => row.kind === 'person'
const isOfBay = (row: PlanRow) => row.kind === 'bay'
