import { plural } from '../../domain/text/words.ts'
import type { CarComparison, PlanComparison } from '../../domain/views/plan-view-shapes.ts'
import { TableFrame } from '../parts/frame/table-frame.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { dayOr } from './day-or.ts'
import { dayShift } from './plan-words.ts'

/** Two plans side by side, car by car; those that change stand first. */
export function ComparisonTable({
  comparison,
  before = 'as it is',
  after,
}: {
  readonly comparison: PlanComparison
  readonly before?: string
  readonly after: string
}) {
  const when = useWhen()
  const cars = comparison.cars.toSorted((a, b) => weightOf(b, when) - weightOf(a, when))
  return (
    <TableFrame label={`The plan ${before} and ${after}`}>
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Car</th>
            <th scope="col">Promised</th>
            <th scope="col">Finished with 80 %, {before}</th>
            <th scope="col">{after}</th>
            <th scope="col">Late, {before}</th>
            <th scope="col">{after}</th>
            <th scope="col">So it is</th>
          </tr>
        </thead>
        <tbody>
          {cars.map((car) => (
            <ComparedCar key={car.carId} car={car} />
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={4}>
              Moves of shells
            </th>
            <td>{comparison.movesBefore}</td>
            <td>{comparison.movesAfter}</td>
            <td>{shiftWords(comparison.movesAfter - comparison.movesBefore, 'move', 'more', 'fewer')}</td>
          </tr>
        </tfoot>
      </table>
    </TableFrame>
  )
}

function ComparedCar({ car }: { readonly car: CarComparison }) {
  const when = useWhen()
  const shift = dayShift(car, when)
  const late = car.daysLateAfter - car.daysLateBefore
  return (
    <tr>
      <th scope="row">{car.name}</th>
      <td>{car.promised === null ? <span className="quiet">nothing</span> : when.day(car.promised)}</td>
      <td>{dayOr(car.finish80Before ?? car.finishBefore, when.day)}</td>
      <td>{dayOr(car.finish80After ?? car.finishAfter, when.day)}</td>
      <td>{lateOf(car, car.daysLateBefore)}</td>
      <td className={car.daysLateAfter > 0 ? 'is-accent strong' : undefined}>
        {lateOf(car, car.daysLateAfter)}
      </td>
      <td className={late > 0 ? 'is-accent strong' : late < 0 ? 'is-passed strong' : 'quiet'}>
        {shiftWords(shift, 'day', 'later', 'earlier')}
      </td>
    </tr>
  )
}

const lateOf = ({ promised }: CarComparison, days: number): string =>
  promised === null ? '' : days === 0 ? 'on time' : plural('day', days)

/** '3 days later', 'as before' */
function shiftWords(by: number, unit: string, more: string, less: string): string {
  if (by === 0) return 'as before'
  return `${plural(unit, Math.abs(by))} ${by > 0 ? more : less}`
}

const weightOf = (car: CarComparison, when: Parameters<typeof dayShift>[1]): number =>
  Math.abs(car.daysLateAfter - car.daysLateBefore) * 1000 + Math.abs(dayShift(car, when))
