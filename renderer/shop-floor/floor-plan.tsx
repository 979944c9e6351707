import { useMemo, type CSSProperties, type ReactNode } from 'react'
import {
  drawFloorPlan,
  type DrawnBay,
  type DrawnCar,
  type FloorPlanDrawing,
} from '../../domain/drawing/floor-plan-drawing.ts'
import type { Box } from '../../domain/drawing/shapes.ts'
import { bayWords, emptyBayWords } from '../../domain/text/bay-words.ts'
import type { CarLine, ShopFloorView } from '../../domain/views/view-shapes.ts'
import { CarSign } from '../parts/drawing/car-drawing.tsx'
import { FloorLines } from './floor-lines.tsx'
import { useWidth } from '../parts/frame/use-width.ts'

export type FloorBayView = ShopFloorView['bays'][number]

export interface FloorPlanProps {
  readonly bays: readonly FloorBayView[]
  /** What is written below a car. */
  readonly carWords: (car: CarLine) => ReactNode
  /** What may be done with it. */
  readonly carAction: (car: CarLine) => ReactNode
  /** What is written in a bay without a car. */
  readonly emptyWords: (bay: FloorBayView) => ReactNode
  /** At the head of every bay, beside its name. */
  readonly bayAction?: (bay: FloorBayView) => ReactNode
}

/** Under this width words do not fit into drawn bays: the bays then stand one below the other. */
const NARROWEST_PLAN = 760

/**
 * The floor of the workshop from above: walls, bays, and the cars in them. Where words do not fit into that many bays, the
 * drawing bears numbers and the bays are listed below by them.
 */
export function FloorPlan(props: FloorPlanProps) {
  const { bays } = props
  const { ref, width } = useWidth<HTMLDivElement>()
  const drawing = useMemo(() => (width < NARROWEST_PLAN ? null : drawFloorPlan(bays, width)), [bays, width])
  return (
    <div ref={ref} className="floor-plan">
      {drawing?.hasRoomForWords === true && <DrawnPlan {...props} drawing={drawing} />}
      {drawing?.hasRoomForWords === false && <NumberedPlan bays={bays} drawing={drawing} />}
      {width > 0 && drawing?.hasRoomForWords !== true && <BayList {...props} isNumbered={drawing !== null} />}
    </div>
  )
}

function DrawnPlan({
  bays,
  carWords,
  carAction,
  emptyWords,
  bayAction,
  drawing,
}: FloorPlanProps & { readonly drawing: FloorPlanDrawing }) {
  const cars = new Map(bays.flatMap((bay) => bay.cars.map((car) => [car.carId as string, car] as const)))
  return (
    <div className="floor-page" style={{ height: drawing.height }}>
      <FloorLines bays={bays} drawing={drawing} />
      {drawing.bays.map((drawn) => {
        const bay = bays.find((each) => each.id === drawn.id)
        return (
          bay && (
            <section key={bay.id} aria-label={bayWords(bay.name)}>
              <div
                className="bay-top"
                style={{ left: drawn.x + 14, top: drawn.y + 4, width: drawn.width - 22 }}
              >
                <BayHead bay={bay} action={bayAction?.(bay)} />
                {bay.cars.length === 0 && <div className="small">{emptyWords(bay)}</div>}
              </div>
              {drawn.cars.map((car) => {
                const line = cars.get(car.carId)
                return (
                  line && (
                    <CarWords
                      key={car.carId}
                      car={car}
                      line={line}
                      words={carWords(line)}
                      action={carAction(line)}
                      bay={drawn}
                    />
                  )
                )
              })}
            </section>
          )
        )
      })}
    </div>
  )
}

/** The same without words: each bay bears the number that it has in the list below. */
function NumberedPlan({
  bays,
  drawing,
}: Pick<FloorPlanProps, 'bays'> & { readonly drawing: FloorPlanDrawing }) {
  return (
    <div className="floor-page" style={{ height: drawing.height }}>
      <FloorLines bays={bays} drawing={drawing} />
      {drawing.bays.map(({ id, x, y, width }, index) => (
        <span key={id} className="balloon" style={{ left: x + width / 2, top: y + 4 }} aria-hidden="true">
          {index + 1}
        </span>
      ))}
    </div>
  )
}

function CarWords({
  car,
  line,
  words,
  action,
  bay,
}: {
  readonly car: DrawnCar
  readonly line: CarLine
  readonly words: ReactNode
  readonly action: ReactNode
  readonly bay: DrawnBay
}) {
  return (
    <>
      {car.isUpright ? (
        <div
          className="car-days beside"
          style={{
            left: car.x + car.width + 8,
            top: car.y + 10,
            width: bay.x + bay.width - car.x - car.width - 12,
          }}
        >
          <StandsThere line={line} />
          {action}
        </div>
      ) : (
        <div className="car-days" style={{ left: car.x, top: car.y + car.width + 6, width: car.length + 10 }}>
          {action}
        </div>
      )}
      <div className="bay-words" style={boxed(car.words)}>
        {words}
      </div>
    </>
  )
}

/** '12 days', 'on stands' */
function StandsThere({ line: { daysThere, fixture } }: { readonly line: CarLine }) {
  return (
    <>
      {daysThere !== null && <div>{daysThere === 1 ? '1 day' : `${daysThere} days`}</div>}
      {fixture !== null && fixture !== 'wheels' && (
        <div className="small">on {fixture === 'stands' ? 'stands' : `the ${fixture}`}</div>
      )}
    </>
  )
}

function BayHead({
  bay,
  number,
  action,
}: {
  readonly bay: FloorBayView
  /** In the drawing above the list. */
  readonly number?: number | undefined
  readonly action?: ReactNode
}) {
  const kinds = bay.kinds.filter((kind) => !bay.name.toLowerCase().includes(kind))
  return (
    <div className="bay-head">
      <h2>
        {number !== undefined && (
          <span className="balloon" aria-hidden="true">
            {number}
          </span>
        )}
        {bay.name} <span className="quiet">{kinds.join(', ')}</span>
      </h2>
      {action}
    </div>
  )
}

/** The same floor where words do not fit into it: bay after bay, each car drawn lying beside its words. */
function BayList({
  bays,
  carWords,
  carAction,
  emptyWords,
  bayAction,
  isNumbered,
}: FloorPlanProps & { readonly isNumbered: boolean }) {
  // By a number in the drawing each of them is looked for; without one, those that nothing is to be said of are told at once.
  const idle = isNumbered ? [] : bays.filter(isIdle)
  const told = bays.filter((bay) => !idle.includes(bay))
  return (
    <div className="bay-list">
      {told.map((bay, index) => (
        <section key={bay.id} className="bay-row" aria-label={bayWords(bay.name)}>
          <BayHead bay={bay} number={isNumbered ? index + 1 : undefined} action={bayAction?.(bay)} />
          {bay.cars.length === 0 && <div className="small">{emptyWords(bay)}</div>}
          {bay.cars.map((car) => (
            <div key={car.carId} className="bay-car">
              <div>
                <CarSign body={car.body} length={84} />
                <div className="car-days-below">
                  <StandsThere line={car} />
                </div>
              </div>
              <div>
                {carWords(car)}
                {carAction(car)}
              </div>
            </div>
          ))}
        </section>
      ))}
      {idle.length > 0 && <p className="bay-row quiet">{emptyBayWords(idle.map(({ name }) => name))}</p>}
    </div>
  )
}

const isIdle = ({ cars, bookings }: FloorBayView): boolean => cars.length + bookings.length === 0

const boxed = ({ x, y, width, height }: Box): CSSProperties => ({
  left: x,
  top: y,
  width,
  minHeight: height,
})
