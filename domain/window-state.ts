import { z } from 'zod'

/** Where the window stood when it was closed; in the system's points. */
export type WindowState = z.infer<typeof windowStateSchema>

const MOST_POINTS = 50_000
const place = z.int().min(-MOST_POINTS).max(MOST_POINTS)
const length = z.int().min(1).max(MOST_POINTS)
export const windowStateSchema = z.strictObject({
  x: place,
  y: place,
  width: length,
  height: length,
  isMaximized: z.boolean(),
})

/** What must be seen of a window's upper edge, so that it can be taken hold of. */
const GRIP = { width: 160, height: 24 }
const USUAL = { width: 1440, height: 900 }

/** A rectangle on the desktop, in the system's points. */
export interface Area {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/**
 * Where the window opens: as it was left, if its upper edge can be seen on a screen that is there; else in the middle of the
 * main screen, no larger than it.
 *
 * @param areas of the screens that are there, without what the system keeps for itself; the main one first
 */
export function windowBounds(state: WindowState | null, areas: readonly [Area, ...Area[]]): Area {
  if (state !== null && areas.some((area) => isInReach(state, area))) {
    const { x, y, width, height } = state
    return { x, y, width, height }
  }
  const [main] = areas
  const width = Math.min(state?.width ?? USUAL.width, main.width)
  const height = Math.min(state?.height ?? USUAL.height, main.height)
  return {
    x: main.x + Math.floor((main.width - width) / 2),
    y: main.y + Math.floor((main.height - height) / 2),
    width,
    height,
  }
}

function isInReach({ x, y, width }: Area, area: Area): boolean {
  const seen = Math.min(x + width, area.x + area.width) - Math.max(x, area.x)
  return seen >= Math.min(GRIP.width, width) && y >= area.y && y + GRIP.height <= area.y + area.height
}
