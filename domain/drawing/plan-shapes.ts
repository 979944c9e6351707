import type { Moment } from '../car.ts'
import type { PlanDay } from '../views/plan-view-shapes.ts'
import { dayAt, type TimeScale, xOf } from './plan-scale.ts'
import { type Box, circlePath, short } from './shapes.ts'

/** Path data of the signs on a plan; lengths in the units of the drawing. */

/** The promised date: a pole with its cloth to the left, the foot at (x, y + height). */
export function flagPath(x: number, y: number, height: number): string {
  return `M${short(x)} ${short(y + height)}V${short(y)}H${short(x - 11)}L${short(x - 8)} ${short(y + 4)}L${short(x - 11)} ${short(y + 8)}H${short(x)}`
}

/** A dimension line between two ends, with the slanting ticks of a workshop drawing. */
export function dimensionPath(from: number, to: number, y: number): string {
  const tick = (x: number) =>
    `M${short(x)} ${short(y - 6)}V${short(y + 6)}M${short(x - 3)} ${short(y + 3)}l6 -6`
  return `${tick(from)}${tick(to)}M${short(from)} ${short(y)}H${short(to)}`
}

/** A pin that stands in the upper edge: its needle and, apart, its round head. */
export function pinPath(x: number, y: number): { readonly needle: string; readonly head: string } {
  return {
    needle: `M${short(x)} ${short(y + 5)}V${short(y - 3)}`,
    head: circlePath({ x, y: y - 5 }, 3),
  }
}

/** A shell goes from one row to another: an upright line with its head at the end. */
export function movePath(x: number, from: number, to: number): string {
  const back = from < to ? -6 : 6
  return `M${short(x)} ${short(from)}V${short(to)}M${short(x - 3.5)} ${short(to + back)}L${short(x)} ${short(to)}L${short(x + 3.5)} ${short(to + back)}`
}

/** A pause narrower than this is not drawn. */
const LEAST_PAUSE = 5

/**
 * Work that pauses over night, as boxes for the hours of the workshop in which it is done and a line that joins them. One
 * box where no pause can be seen, or where it is done outside of the workshop's hours.
 */
export function workBoxes(
  { x, y, width, height }: Box,
  { from, to }: { readonly from: Moment; readonly to: Moment },
  days: readonly PlanDay[],
  scale: TimeScale,
): readonly Box[] {
  const whole = [{ x, y, width, height }]
  if (scale.perDay < PAUSES_FROM) return whole
  const boxes: Box[] = []
  for (const span of spansBetween(days, from, to)) {
    const start = xOf(scale, Math.max(from, span.from))
    const end = xOf(scale, Math.min(to, span.to))
    const last = boxes.at(-1)
    if (last !== undefined && start - last.x - last.width < LEAST_PAUSE) {
      boxes[boxes.length - 1] = { ...last, width: end - last.x }
    } else boxes.push({ x: start, y, width: end - start, height })
  }
  return boxes.length === 0 ? whole : boxes
}

const PAUSES_FROM = 64

function spansBetween(days: readonly PlanDay[], from: Moment, to: Moment) {
  const spans: { readonly from: Moment; readonly to: Moment }[] = []
  for (let index = days.indexOf(dayAt(days, from)); index < days.length; index += 1) {
    const day = days[index]
    if (day === undefined || day.from >= to) break
    spans.push(...day.spans.filter((span) => span.to > from && span.from < to))
  }
  return spans
}

/** The line through the pauses between boxes, at half their height. */
export function pausePath(boxes: readonly Box[]): string {
  return boxes
    .slice(1)
    .map((box, index) => {
      const before = boxes[index]
      if (before === undefined) return ''
      return `M${short(before.x + before.width)} ${short(box.y + box.height / 2)}H${short(box.x)}`
    })
    .join('')
}
