import { z } from 'zod'
import type { Point } from '../drawing/shapes.ts'

/** Bounds of what is drawn on one photo. */
export const MOST_MARKS = 20
export const MOST_LINE_POINTS = 60
/** Shares of the photo's width or height under which nothing can be made out. */
const LEAST_SPAN = 0.01

const pointSchema = z.strictObject({ x: z.number().min(0).max(1), y: z.number().min(0).max(1) }).readonly()

const span = (a: Point, b: Point) => ({ x: Math.abs(b.x - a.x), y: Math.abs(b.y - a.y) })
const isLong = (a: Point, b: Point): boolean => Math.max(span(a, b).x, span(a, b).y) >= LEAST_SPAN

/** One mark; points are shares of the upright photo's width (x, from the left) and height (y, from the top), 0 to 1. */
export const photoMarkSchema = z.discriminatedUnion('kind', [
  /** Its head lies at `to`. */
  z
    .strictObject({ kind: z.literal('arrow'), from: pointSchema, to: pointSchema })
    .readonly()
    .refine(({ from, to }) => isLong(from, to), { error: 'Draw the arrow longer.' }),
  /** Within the box that has these two corners. */
  z
    .strictObject({ kind: z.literal('circle'), from: pointSchema, to: pointSchema })
    .readonly()
    .refine(({ from, to }) => Math.min(span(from, to).x, span(from, to).y) >= LEAST_SPAN, {
      error: 'Draw the circle larger.',
    }),
  z
    .strictObject({
      kind: z.literal('line'),
      points: z.array(pointSchema).min(2).max(MOST_LINE_POINTS).readonly(),
    })
    .readonly()
    .refine(
      ({ points: [first, ...rest] }) => first !== undefined && rest.some((each) => isLong(first, each)),
      {
        error: 'Draw the line longer.',
      },
    ),
])

/** The marks of one photo, in the order in which they were drawn; empty for none. */
export const photoMarksSchema = z
  .array(photoMarkSchema)
  .max(MOST_MARKS, `Draw at most ${MOST_MARKS} marks on a photo.`)
  .readonly()

export type PhotoMark = z.infer<typeof photoMarkSchema>
export type PhotoMarks = readonly PhotoMark[]

export const NO_MARKS: PhotoMarks = []

export interface MarkCounts {
  readonly arrows: number
  readonly circles: number
  readonly lines: number
}

export function countMarks(marks: PhotoMarks): MarkCounts {
  const of = (kind: PhotoMark['kind']) => marks.filter((mark) => mark.kind === kind).length
  return { arrows: of('arrow'), circles: of('circle'), lines: of('line') }
}
