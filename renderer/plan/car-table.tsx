import { memo } from 'react'
import { plural } from '../../domain/text/words.ts'
import type { CarId } from '../../domain/ids.ts'
import { WordButton } from '../parts/form/button.tsx'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { dayOr } from './day-or.ts'
import { HatchSign } from './hatch-patterns.tsx'
import { useShownPlan } from './plan-context.ts'
import styles from './plan.module.css'
import { daysLate } from './plan-words.ts'

/** The legend: every car with its hatching, and when it is promised and finished. */
export const CarTable = memo(function CarTable({ onChoose }: { readonly onChoose: (carId: CarId) => void }) {
  const { plan, names } = useShownPlan()
  const when = useWhen()
  const cars = plan.cars
    .map((car) => ({ car, late: daysLate(car, when) }))
    .toSorted((a, b) => b.late - a.late || names.car(a.car.carId).localeCompare(names.car(b.car.carId)))
  return (
    <section className={`stack-tight ${styles.carTable}`}>
      <div className="spread">
        <h2 className="minor">Cars on this plan</h2>
        <p className="quiet small">
          Here a hatching tells which car it is. In the section of a repair hatching is cut metal. A pin is
          what a manager has fixed.
        </p>
      </div>
      <TableFrame label="Cars on this plan">
        <table className="table">
          <thead>
            <tr>
              <th scope="col">Car</th>
              <th scope="col">Promised</th>
              <th scope="col">Finished with 50 %</th>
              <th scope="col">with 80 %</th>
              <th scope="col">Late with 80 %</th>
            </tr>
          </thead>
          <tbody>
            {cars.map(({ car, late }) => (
              <tr key={car.carId}>
                <th scope="row">
                  <HatchSign hatch={names.row(car.carId)?.hatch ?? 0} />{' '}
                  <WordButton onClick={() => onChoose(car.carId)}>{names.car(car.carId)}</WordButton>{' '}
                  <span className="quiet small">{names.row(car.carId)?.shellNumber}</span>
                </th>
                <td>
                  {car.promised === null ? <span className="quiet">nothing</span> : when.day(car.promised)}
                </td>
                <td>{dayOr(car.finish50, when.day)}</td>
                <td>{dayOr(car.finish80, when.day)}</td>
                <td className={late > 0 ? 'is-accent strong' : 'quiet'}>
                  {car.promised === null ? '' : late > 0 ? plural('day', late) : 'on time'}
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </TableFrame>
    </section>
  )
})
