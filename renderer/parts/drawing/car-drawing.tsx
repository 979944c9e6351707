import { carOutlines, OUTLINE_LENGTH, OUTLINE_WIDTH } from '../../../domain/drawing/car-outline.ts'
import type { Body } from '../../../domain/facts/car-facts.ts'

/** A car from above, inside an SVG: nose up, or nose left when it lies. */
export function CarShape({
  body,
  x,
  y,
  length,
  isUpright,
}: {
  readonly body: Body
  readonly x: number
  readonly y: number
  readonly length: number
  readonly isUpright: boolean
}) {
  const scale = length / OUTLINE_LENGTH
  const turn = isUpright ? '' : ` rotate(-90) translate(${-OUTLINE_WIDTH} 0)`
  const { shell, glass, seams, open } = carOutlines[body]
  return (
    <g transform={`translate(${x} ${y}) scale(${scale})${turn}`} strokeWidth={1.4 / scale}>
      <path d={shell} className="car-shell" />
      {seams.map((path) => (
        <path key={path} d={path} className="car-seam" strokeWidth={0.7 / scale} />
      ))}
      {open.map((path) => (
        <path key={path} d={path} className="car-open" strokeWidth={1 / scale} />
      ))}
      {glass.map((path) => (
        <path key={path} d={path} className="car-glass" strokeWidth={1 / scale} />
      ))}
    </g>
  )
}

/** A car by itself, lying with its nose to the left: for lists. */
export function CarSign({ body, length = 96 }: { readonly body: Body; readonly length?: number }) {
  const width = (length * OUTLINE_WIDTH) / OUTLINE_LENGTH
  return (
    <svg
      width={length + 4}
      height={width + 4}
      viewBox={`-2 -2 ${length + 4} ${width + 4}`}
      role="img"
      aria-label={body}
    >
      <CarShape body={body} x={0} y={0} length={length} isUpright={false} />
    </svg>
  )
}
