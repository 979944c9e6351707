import type { Point } from '../../../domain/drawing/shapes.ts'

const STEPS: Readonly<Record<string, Point>> = {
  ArrowLeft: { x: -1, y: 0 },
  ArrowRight: { x: 1, y: 0 },
  ArrowUp: { x: 0, y: -1 },
  ArrowDown: { x: 0, y: 1 },
}

/** Where an arrow key leads, in steps of this length; null for any other key. */
export function arrowStep(key: string, length: number): Point | null {
  const step = STEPS[key]
  return step === undefined ? null : { x: step.x * length, y: step.y * length }
}
