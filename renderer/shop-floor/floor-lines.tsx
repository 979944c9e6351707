import type { DrawnBay, FloorPlanDrawing } from '../../domain/drawing/floor-plan-drawing.ts'
import type { Box } from '../../domain/drawing/shapes.ts'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { CarShape } from '../parts/drawing/car-drawing.tsx'

/** Everything of the floor that is drawn: walls, doors, bays and the cars in them. */
export function FloorLines({
  bays,
  drawing,
}: {
  readonly bays: ShopFloorView['bays']
  readonly drawing: FloorPlanDrawing
}) {
  const bodies = new Map(bays.flatMap(({ cars }) => cars.map(({ carId, body }) => [carId as string, body])))
  return (
    <svg width={drawing.width} height={drawing.height} aria-hidden="true">
      <Walls drawing={drawing} />
      {drawing.bays.map((bay) => (
        <BayLines key={bay.id} bay={bay} />
      ))}
      {drawing.bays.flatMap((bay) =>
        bay.cars.map((car) => {
          const body = bodies.get(car.carId)
          return body && <CarShape key={car.carId} body={body} {...car} />
        }),
      )}
    </svg>
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
function filterLines({ x, y, width, height }: Box): string {
  const count = Math.floor((width - 4) / 7)
  return Array.from({ length: count }, (_, index) => `M${x + 3 + index * 7} ${y + height - 1}l6 -7`).join('')
}
