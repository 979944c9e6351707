import { joinWords } from '../../domain/text/words.ts'
import { isStorage } from '../../domain/workshop.ts'
import type { BayId } from '../../domain/ids.ts'
import { BayLabel } from './bay-label.tsx'
import { BayMeasures } from './bay-measures.tsx'
import type { BayPlace } from '../parts/drawing/bay-place.ts'
import { floorSize, metres, type PlacedBay } from './bay-places.ts'
import styles from './bays.module.css'
import { useWidth } from '../parts/frame/use-width.ts'
import { useBayDrag } from './use-bay-drag.ts'

/** Under this width, in pixels, bays have room for their names only. */
const NARROW = 560

interface Props {
  readonly bays: readonly PlacedBay[]
  readonly chosenId: BayId | null
  readonly onChoose: (id: BayId) => void
  readonly onPlace: (id: BayId, place: BayPlace) => void
}

/** The floor on squared paper, a square a metre: bays are dragged to their place, or moved by the arrow keys. */
export function BayPlan({ bays, chosenId, onChoose, onPlace }: Props) {
  const { width, height } = floorSize(bays)
  const { ref, width: room } = useWidth<HTMLDivElement>()
  // Words are as large as elsewhere on the screen, however small the floor is drawn.
  const unit = room === 0 ? 0.35 : (width + 14) / room
  const chosen = bays.find(({ bay }) => bay.id === chosenId)
  const drag = useBayDrag(onChoose, onPlace)
  return (
    <div ref={ref}>
      <svg
        ref={drag.ref}
        className={styles.plan}
        // Around the floor there is room for the walls and for the measures of the chosen bay.
        viewBox={`-8 -12 ${width + 14} ${height + 20}`}
        role="group"
        aria-label={`Plan of the floor, ${metres(width)} by ${metres(height)}`}
      >
        <Grid width={width} height={height} />
        <rect className={styles.wall} x={-1} y={-1} width={width + 2} height={height + 2} />
        {bays.map((each) => (
          <g
            key={each.bay.id}
            className={each.bay.id === chosenId ? styles.chosen : styles.bay}
            transform={`translate(${each.place.x} ${each.place.y})`}
            role="button"
            tabIndex={0}
            aria-pressed={each.bay.id === chosenId}
            aria-label={bayWords(each)}
            {...drag.of(each)}
          >
            <rect className={styles.area} width={each.place.width} height={each.place.height} />
            <BayEdges placed={each} />
          </g>
        ))}
        {bays.map((each) => (
          <BayLabel key={each.bay.id} placed={each} bays={bays} unit={unit} hasKinds={room >= NARROW} />
        ))}
        {chosen !== undefined && <BayMeasures place={chosen.place} textSize={12.5 * unit} />}
        {chosen !== undefined && (
          <rect
            className={styles.corner}
            x={chosen.place.x + chosen.place.width - 5}
            y={chosen.place.y + chosen.place.height - 5}
            width={5}
            height={5}
            {...drag.corner(chosen)}
          />
        )}
      </svg>
    </div>
  )
}

/** Booths have walls and a filter, storage is a fenced yard, other bays are two lines on the floor. */
function BayEdges({ placed: { bay, place } }: { readonly placed: PlacedBay }) {
  const { width, height } = place
  if (bay.kinds.includes('booth') || isStorage(bay))
    return (
      <rect
        className={bay.kinds.includes('booth') ? styles.booth : styles.yard}
        width={width}
        height={height}
      />
    )
  const isUpright = height >= width
  return (
    <path
      className={styles.lines}
      d={isUpright ? `M0 0V${height}M${width} 0V${height}` : `M0 0H${width}M0 ${height}H${width}`}
    />
  )
}

function Grid({ width, height }: { readonly width: number; readonly height: number }) {
  const every = (length: number, step: number) =>
    Array.from({ length: Math.floor(length / step) }, (_, index) => (index + 1) * step)
  const lines = (step: number) =>
    [
      ...every(width, step).map((x) => `M${x} 0V${height}`),
      ...every(height, step).map((y) => `M0 ${y}H${width}`),
    ].join('')
  return (
    <>
      <path className={styles.square} d={lines(10)} />
      <path className={styles.fifth} d={lines(50)} />
    </>
  )
}

const bayWords = ({ bay, place }: PlacedBay): string =>
  `${bay.name}, ${joinWords(bay.kinds)}: ${metres(place.width)} by ${metres(place.height)}, ${metres(place.x)} from the left wall, ${metres(place.y)} from the back wall`
