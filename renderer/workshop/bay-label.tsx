import { shorten, textWidth, wrapText } from '../../domain/drawing/text-fit.ts'
import { floorSize, type PlacedBay } from './bay-places.ts'
import styles from './bays.module.css'

/** Between a bay's edge or its neighbour's and its words, in floor units. */
const EDGE = 3

/** A bay's name and kinds where they stand on the plan; kinds for which there is no room stand in the list beside it alone. */
export function BayLabel({
  placed,
  bays,
  unit,
  hasKinds,
}: {
  readonly placed: PlacedBay
  readonly bays: readonly PlacedBay[]
  /** Floor units of one pixel of words. */
  readonly unit: number
  readonly hasKinds: boolean
}) {
  const { bay, place } = placed
  const width = roomFor(placed, bays) - 2 * EDGE
  const most = Math.floor((place.height - EDGE - 18 * unit) / (15 * unit))
  return (
    <g className={styles.words} transform={`translate(${place.x} ${place.y})`} aria-hidden="true">
      <text className={styles.name} x={EDGE} y={EDGE + 13 * unit} fontSize={14 * unit}>
        {shorten(bay.name, width, 14 * unit, true)}
      </text>
      {hasKinds &&
        kindLines(bay.kinds, width, 12 * unit, most).map((line, index) => (
          <text
            key={line}
            className={styles.kinds}
            x={EDGE}
            y={EDGE + (30 + 15 * index) * unit}
            fontSize={12 * unit}
          >
            {line}
          </text>
        ))}
    </g>
  )
}

/** None where one of the words alone is too long, or where there is no room for all of them. */
function kindLines(kinds: readonly string[], width: number, size: number, most: number): readonly string[] {
  const words = kinds.join(', ')
  if (words.split(' ').some((word) => textWidth(word, size) > width)) return []
  const lines = wrapText(words, width, size, Number.POSITIVE_INFINITY)
  return lines.length > most ? [] : lines
}

/** From a bay's left edge to the next bay on its right that stands beside it, or to the wall. */
function roomFor({ bay, place }: PlacedBay, bays: readonly PlacedBay[]): number {
  const isBeside = (other: PlacedBay): boolean =>
    other.bay.id !== bay.id &&
    other.place.x > place.x &&
    other.place.y < place.y + place.height &&
    other.place.y + other.place.height > place.y
  return Math.min(floorSize(bays).width, ...bays.filter(isBeside).map((other) => other.place.x)) - place.x
}
