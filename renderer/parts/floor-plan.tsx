import { useMemo, type CSSProperties, type ReactNode } from 'react'
import {
  drawFloorPlan,
  type DrawnBay,
  type DrawnCar,
  type FloorPlanDrawing,
  type FloorRect,
} from '../../domain/drawing/floor-plan-drawing.ts'
import type { CarLine, ShopFloorView } from '../../domain/views/view-shapes.ts'
import { CarShape, CarSign } from './car-drawing.tsx'
import { useWidth } from './use-width.ts'

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

/** The floor of the workshop from above: walls, bays, and the cars in them. */
export function FloorPlan(props: FloorPlanProps) {
  const { ref, width } = useWidth<HTMLDivElement>()
  return (
    <div ref={ref} className="floor-plan">
      {width >= NARROWEST_PLAN && <DrawnPlan {...props} width={width} />}
      {width > 0 && width < NARROWEST_PLAN && <BayList {...props} />}
    </div>
  )
}

function DrawnPlan({
  bays,
  carWords,
  carAction,
  emptyWords,
  bayAction,
  width,
}: FloorPlanProps & { readonly width: number }) {
  const drawing = useMemo(() => drawFloorPlan(bays, width), [bays, width])
  const cars = new Map(bays.flatMap((bay) => bay.cars.map((car) => [car.carId as string, car] as const)))
  return (
    <div className="floor-page" style={{ height: drawing.height }}>
      <svg width={drawing.width} height={drawing.height} aria-hidden="true">
        <Walls drawing={drawing} />
        {drawing.bays.map((bay) => (
          <BayLines key={bay.id} bay={bay} />
        ))}
        {drawing.bays.flatMap((bay) =>
          bay.cars.map((car) => {
            const line = cars.get(car.carId)
            return line && <CarShape key={car.carId} body={line.body} {...car} />
          }),
        )}
      </svg>
      {drawing.bays.map((drawn) => {
        const bay = bays.find((each) => each.id === drawn.id)
        return (
          bay && (
            <section key={bay.id} aria-label={`bay ${bay.name}`}>
              <BayHead
                bay={bay}
                style={{ left: drawn.x + 14, top: drawn.y + 4, width: drawn.width - 22 }}
                action={bayAction?.(bay)}
              />
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
              {bay.cars.length === 0 && (
                <div className="bay-words" style={boxed(drawn.words)}>
                  {emptyWords(bay)}
                </div>
              )}
            </section>
          )
        )
      })}
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
      {car.isUpright && (
        <div
          className="car-days"
          style={{
            left: car.x + car.width + 8,
            top: car.y + 10,
            width: bay.x + bay.width - car.x - car.width - 12,
          }}
        >
          <StandsThere line={line} />
          {action}
        </div>
      )}
      <div className="bay-words" style={boxed(car.words)}>
        {words}
        {!car.isUpright && action}
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
  style,
  action,
}: {
  readonly bay: FloorBayView
  readonly style?: CSSProperties
  readonly action?: ReactNode
}) {
  const kinds = bay.kinds.filter((kind) => !bay.name.toLowerCase().includes(kind))
  return (
    <div className="bay-head" {...(style && { style })}>
      <h2>
        {bay.name} <span className="quiet">{kinds.join(', ')}</span>
      </h2>
      {action}
    </div>
  )
}

/** The same floor on a narrow screen: bay after bay, each car drawn lying beside its words. */
function BayList({ bays, carWords, carAction, emptyWords, bayAction }: FloorPlanProps) {
  return (
    <div className="bay-list">
      {bays.map((bay) => (
        <section key={bay.id} className="bay-row" aria-label={`bay ${bay.name}`}>
          <BayHead bay={bay} action={bayAction?.(bay)} />
          {bay.cars.length === 0 && <div>{emptyWords(bay)}</div>}
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
    </div>
  )
}

function Walls({ drawing: { walls, doors } }: { readonly drawing: FloorPlanDrawing }) {
  const { x, y, width, height } = walls
  const radius = (doors.to - doors.from) / 2
  return (
    <>
      <path
        className="floor-wall"
        d={`M${doors.from} ${doors.y}H${x}V${y}H${x + width}V${y + height}H${doors.to}`}
      />
      <path
        className="floor-doors"
        d={`M${doors.from} ${doors.y}A${radius} ${radius} 0 0 1 ${doors.from + radius} ${doors.y - radius}V${doors.y}M${doors.to} ${doors.y}A${radius} ${radius} 0 0 0 ${doors.from + radius} ${doors.y - radius}`}
      />
      <text className="floor-words" x={doors.to + 10} y={doors.y - 10}>
        doors
      </text>
    </>
  )
}

function BayLines({ bay }: { readonly bay: DrawnBay }) {
  const { x, y, width, height } = bay
  if (bay.hasWalls) {
    return (
      <>
        <rect className="booth" x={x} y={y} width={width} height={height} />
        <path className="booth-filter" d={filterLines(bay)} />
      </>
    )
  }
  return (
    <path
      className="bay-line"
      d={
        bay.isUpright
          ? `M${x} ${y}V${y + height}M${x + width} ${y}V${y + height}`
          : `M${x} ${y}H${x + width}M${x} ${y + height}H${x + width}`
      }
    />
  )
}

/** The filter wall of a booth: short slanted strokes along its lower side, clear of the bay's head. */
function filterLines({ x, y, width, height }: FloorRect): string {
  const count = Math.floor((width - 4) / 7)
  return Array.from({ length: count }, (_, index) => `M${x + 3 + index * 7} ${y + height - 1}l6 -7`).join('')
}

const boxed = ({ x, y, width, height }: FloorRect): CSSProperties => ({
  left: x,
  top: y,
  width,
  minHeight: height,
})
