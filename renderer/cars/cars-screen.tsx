import { useQuery } from '@tanstack/react-query'
import { getRouteApi, Link } from '@tanstack/react-router'
import { useState } from 'react'
import { hours, plural } from '../../domain/text/words.ts'
import type { CarLine } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { CarSign } from '../parts/drawing/car-drawing.tsx'
import { FindButton } from '../find/find-button.tsx'
import { FirstSteps } from '../parts/frame/first-steps.tsx'
import { MarkSign } from '../parts/gates/gate-strip.tsx'
import { HoursBar, HoursLegend, spentOf } from '../parts/hours/hours-bar.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { LongList } from '../parts/frame/long-list.tsx'
import { EmptyState } from '../parts/form/notice.tsx'
import { PromisedDate } from '../parts/car/promised-date.tsx'
import { ScreenHead } from '../parts/frame/screen-head.tsx'
import { SteppedList } from '../parts/frame/stepped-list.tsx'
import { AddCarDialog } from './add-car-dialog.tsx'
import { BringInDialog } from './bring-in-dialog.tsx'
import styles from './cars.module.css'
import { ImportDialog } from './import-dialog.tsx'
import { isOver } from '../../domain/visit-over.ts'

const route = getRouteApi('/cars')

/** Earlier ones are found by name, shell number or owner with Find. */
const DELIVERED_AT_ONCE = 24

type Doing = 'add' | 'import' | 'bring in' | null

export function CarsScreen() {
  const query = useQuery(api.cars.queryOptions())
  const navigate = route.useNavigate()
  const { add } = route.useSearch()
  const [chosen, setDoing] = useState<Doing>(null)
  const doing = add === true ? 'add' : chosen
  const close = () => {
    setDoing(null)
    if (add === true) void navigate({ search: {}, replace: true })
  }
  return (
    <div className="stack">
      <Loaded query={query}>{({ cars }) => <Cars cars={cars} onDo={setDoing} />}</Loaded>
      {doing === 'add' && <AddCarDialog onClose={close} />}
      {doing === 'import' && <ImportDialog onClose={close} />}
      {doing === 'bring in' && <BringInDialog onClose={close} />}
    </div>
  )
}

function Cars({ cars, onDo }: { readonly cars: readonly CarLine[]; readonly onDo: (doing: Doing) => void }) {
  const came = cars.filter(({ cameFrom }) => cameFrom !== null)
  const own = cars.filter(({ cameFrom }) => cameFrom === null)
  const here = own.filter((car) => !isOver(car))
  const gone = own.filter(isOver)
  const delivered = gone.filter(({ status }) => status === 'delivered').length
  const goneTitle = delivered === gone.length ? 'Delivered' : 'Delivered, or not taken on'
  // One scale for all, so that a small job looks small.
  const scale = Math.max(
    0,
    ...cars.map((car) => Math.max(car.hours.authorised + car.hours.waiting, car.hours.spent)),
  )
  return (
    <>
      <ScreenHead
        title="Cars"
        below={`${plural('car', here.length)} here, ${delivered} delivered`}
        figures={[
          { label: 'repairs open', value: sum(here, (car) => car.openRepairs) },
          { label: 'decisions open', value: sum(here, (car) => car.decisionsOpen) },
          { label: 'promised dates past', value: here.filter((car) => car.latePromise).length },
        ]}
      />
      <div className={styles.find}>
        <FindButton />
      </div>
      <FirstSteps />
      <div className="button-row">
        <Button kind="main" onClick={() => onDo('add')}>
          Add a car
        </Button>
        <Button onClick={() => onDo('bring in')}>Bring in a car’s file</Button>
        <Button onClick={() => onDo('import')}>Bring in a CSV file</Button>
        <Link to="/card" className="button">
          Photos from a card
        </Link>
      </div>
      {cars.length === 0 ? (
        <EmptyState title="No car yet">
          Each car of the workshop stands here with where it is, what is next on it, what holds it and its
          hours. Add the first one with its owner, what was promised and a photo as it came in; or bring in
          many at once from a CSV file, for which there are examples to fill in.
        </EmptyState>
      ) : (
        <>
          <LongList items={here} className={styles.cars}>
            {(car) => <CarRow key={car.carId} car={car} scale={scale} />}
          </LongList>
          <HoursLegend />
          {came.length > 0 && (
            <section className="stack-tight">
              <h2>Came with their file, without a visit yet</h2>
              <LongList items={came} className={styles.cars}>
                {(car) => <CarRow key={car.carId} car={car} scale={scale} />}
              </LongList>
            </section>
          )}
          {gone.length > 0 && (
            <section className="stack-tight">
              <h2>{goneTitle}</h2>
              <SteppedList items={gone} step={DELIVERED_AT_ONCE} title={goneTitle} className={styles.cars}>
                {(car) => <CarRow key={car.carId} car={car} scale={scale} />}
              </SteppedList>
            </section>
          )}
        </>
      )}
    </>
  )
}

function CarRow({ car, scale }: { readonly car: CarLine; readonly scale: number }) {
  return (
    <li className={styles.car}>
      <div className={styles.sign}>
        <CarSign body={car.body} length={104} />
      </div>
      <div>
        <Link to="/cars/$carId" params={{ carId: car.carId }} className={`reaching ${styles.name}`}>
          {car.name}
        </Link>
        <div className="quiet small">
          {[car.year, `shell ${car.shellNumber}`, car.owner, car.warranty ? 'warranty' : null]
            .filter(Boolean)
            .join(', ')}
        </div>
        <div className="quiet small">{whereWords(car)}</div>
      </div>
      <div>
        <div>{car.next}</div>
        {car.held !== null && (
          <div className="is-accent small">
            <MarkSign mark="held" /> held: {car.held}
          </div>
        )}
        {car.faults.map((fault) => (
          <div key={fault} className="is-accent small">
            fault: {fault}
          </div>
        ))}
        {car.decisionsOpen > 0 && (
          <div className="small">{plural('decision', car.decisionsOpen)} with the owner</div>
        )}
        {car.onIt.length > 0 && <div className="quiet small">{car.onIt.join(', ')} on it</div>}
      </div>
      <div className={styles.hours}>
        <HoursBar hours={car.hours} scale={scale} />
        <div className="small">
          {spentOf(car.hours)}
          {car.hours.waiting > 0 && <span className="quiet">, {hours(car.hours.waiting)} waits</span>}
        </div>
        <div className="quiet small">
          {car.repairs === 0
            ? 'no repairs yet'
            : `${car.finishedRepairs} of ${plural('repair', car.repairs)} finished`}
        </div>
      </div>
      <div className={styles.promise}>
        <PromisedDate date={car.promised} isLate={car.latePromise} />
      </div>
    </li>
  )
}

function whereWords({ place, daysThere, status, cameFrom }: CarLine): string {
  if (cameFrom !== null) return place
  const days = daysThere === null ? '' : `, ${plural('day', daysThere)}`
  return status === 'in work' || status === place ? `${place}${days}` : `${place}${days}; ${status}`
}

const sum = (cars: readonly CarLine[], of: (car: CarLine) => number): number =>
  cars.reduce((total, car) => total + of(car), 0)
