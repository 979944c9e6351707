import { useState } from 'react'
import type { PlannedCar } from '../../domain/plan/plan.ts'
import { plural, rounded } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { dayOr } from './day-or.ts'
import { HistoryDialog } from './history-dialog.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { daysLate } from './plan-words.ts'
import { Cell } from './title-cell.tsx'
import { CarName } from './title-cells.tsx'
import { worstWait } from './plan-figures.ts'

/** A car's promise and its finish, what drives it, and how it has moved. */
export function FinishCells({ car }: { readonly car: PlannedCar }) {
  const { plan, names } = useShownPlan()
  const when = useWhen()
  const [isHistoryOpen, setIsHistoryOpen] = useState(false)
  const late = daysLate(car, when)
  const wait = worstWait(plan.work, car.carId)
  return (
    <>
      <Cell name="car">
        <CarName carId={car.carId} />
      </Cell>
      <Cell name="promised">
        {car.promised === null ? 'nothing' : when.day(car.promised)}
        <div className={late > 0 ? 'is-accent strong' : 'quiet'}>
          {late > 0 ? `${plural('day', late)} late with 80 %` : car.promised !== null && 'on time with 80 %'}
        </div>
      </Cell>
      <Cell name="finished">
        <div>50 %: {dayOr(car.finish50, when.day)}</div>
        <div>80 %: {dayOr(car.finish80, when.day)}</div>
      </Cell>
      <Cell name="what it waits for longest" wide>
        {wait === null ? 'nothing that can be changed' : `${names.work(wait)} ${wait.why.words}`}
        {car.drivers.length > 0 && (
          <div className="quiet small">
            least sure:{' '}
            {car.drivers
              .map(({ name, share }) => `${name}, ${rounded(share * 100, 0)} % of the spread`)
              .join('; ')}
          </div>
        )}
      </Cell>
      <div className={styles.actionsCell}>
        <Button onClick={() => setIsHistoryOpen(true)}>How it has moved</Button>
      </div>
      {isHistoryOpen && <HistoryDialog carId={car.carId} onClose={() => setIsHistoryOpen(false)} />}
    </>
  )
}
