import { Link } from '@tanstack/react-router'
import { hours } from '../../domain/text/words.ts'
import { GATES } from '../../domain/gates.ts'
import { spentOf } from '../parts/hours/hours-bar.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { ScreenHead, type Figure } from '../parts/frame/screen-head.tsx'
import { ManagerMenu } from './manager-menu.tsx'
import { useRepair } from './repair-context.ts'
import styles from './repair.module.css'

/** Which repair on which car, what lies over and under it, and its hours. */
export function RepairHead() {
  const { view } = useRepair()
  const { car, repair } = view
  return (
    <>
      <div className="stack-tight">
        <div className="spread">
          <Link
            to="/cars/$carId"
            params={{ carId: car.carId }}
            className={styles.link}
            activeOptions={{ exact: true }}
          >
            {car.name}
          </Link>
          <ManagerMenu />
        </div>
        <ScreenHead title={repair.name} below={<Below />} figures={figuresOf(view)} />
      </div>
      <Standing />
    </>
  )
}

function Below() {
  const { view } = useRepair()
  const { car, repair, zoneWords, covers } = view
  const facts = [
    zoneWords,
    ...(repair.loadBearing ? ['load-bearing'] : []),
    ...(repair.onPart ? ['on a part off the car'] : []),
    car.place,
  ].join(', ')
  return [facts, ...covers.map(({ direction, name }) => `${direction} ${name}`)].join('; ')
}

function figuresOf({ repair }: ReturnType<typeof useRepair>['view']): readonly Figure[] {
  const done = repair.marks.filter(({ mark }) => mark === 'passed' || mark === 'not needed').length
  const { authorised, spent, waiting } = repair.hours
  return [
    { label: 'gates done', value: `${done} of ${GATES.length}` },
    {
      label: 'hours spent of authorised',
      value: spentOf(repair.hours),
      ...(spent > authorised && authorised > 0 && { tone: 'accent' as const }),
    },
    ...(waiting > 0 ? [{ label: 'waits for a decision', value: hours(waiting) }] : []),
  ]
}

/** Faults and endings that everybody must see before anything else. */
function Standing() {
  const { view } = useRepair()
  const { faults, retired, closedAsFound } = view.repair
  if (faults.length === 0 && !retired && !closedAsFound) return null
  return (
    <div className={`stack-tight ${styles.standing}`}>
      {faults.map((words) => (
        <Notice key={words} kind="refused">
          <p>
            <span className="strong">Standing fault:</span> {words}
          </p>
        </Notice>
      ))}
      {retired && <Notice>This repair is retired. Its facts stay where they happened.</Notice>}
      {closedAsFound && <Notice>This repair was closed as found: it was not put right.</Notice>}
    </div>
  )
}
