import { step } from './canvas.ts'
import type { Random } from './random.ts'

/** The shapes of pressed and folded steel: where a point is, and how high. Lengths are in units of about 10 cm. */
export type Form = (point: Place) => number

export interface Place {
  readonly u: number
  readonly v: number
}

/** A large, gently curved panel. */
export function crown(random: Random): Form {
  const across = random.between(-0.035, 0.035)
  const down = random.between(0.02, 0.07)
  return ({ u, v }) => -across * (u - 2) ** 2 - down * (v - 1.5) ** 2
}

/** A swage line: a raised fold along a nearly straight line. */
export function swage(random: Random, atV: number, height: number): Form {
  const slope = random.between(-0.08, 0.08)
  const bend = random.between(-0.02, 0.02)
  const width = random.between(0.1, 0.2)
  return ({ u, v }) => {
    const distance = v - atV - slope * (u - 2) - bend * (u - 2) ** 2
    return height * (1 - step(0, width, Math.abs(distance))) + height * 0.5 * step(-width, width, distance)
  }
}

/** Long pressed beads that stiffen a floor. */
export function beads(random: Random): Form {
  const spacing = random.between(0.75, 1)
  const start = random.between(0, spacing)
  const height = random.between(0.07, 0.11)
  const ends = [random.between(0.3, 0.7), random.between(3.2, 3.8)] as const
  return ({ u, v }) => {
    const beside = Math.abs(((((v - start) % spacing) + spacing) % spacing) - spacing / 2)
    const beyond = Math.max(ends[0] - u, u - ends[1], 0)
    return height * (1 - step(0.1, 0.24, Math.sqrt(beside * beside + beyond * beyond)))
  }
}

/** Signed distance to a rectangle with rounded corners: negative inside. */
export function roundedBox(
  middleU: number,
  middleV: number,
  halfU: number,
  halfV: number,
  corner: number,
): Form {
  return ({ u, v }) => {
    const du = Math.abs(u - middleU) - halfU + corner
    const dv = Math.abs(v - middleV) - halfV + corner
    if (du <= 0 || dv <= 0) return Math.max(du, dv) - corner
    return Math.sqrt(du * du + dv * dv) - corner
  }
}

/** Signed distance to a slightly bent line through the picture: negative above it. */
export function line(random: Random, atV: number, lean = 0.12): Form {
  const slope = random.between(-lean, lean)
  const bend = random.between(-0.03, 0.03)
  return ({ u, v }) => v - atV - slope * (u - 2) - bend * (u - 2) ** 2
}

/** A row of round marks along a line. */
export interface Row {
  /** Distance to the nearest mark's middle. */
  readonly distance: Form
  /** A number of its own for the nearest mark, 0 to 1. */
  readonly own: Form
}

export function row(random: Random, along: Form, spacing: number, jitter: number): Row {
  const start = random.between(0, spacing)
  const owns = Array.from({ length: 64 }, () => random.next())
  const markOf = (u: number) => Math.floor((u - start) / spacing)
  const ownOf = (mark: number) => owns[mark & 63] as number
  return {
    distance: (p) => {
      const mark = markOf(p.u)
      const beside = p.u - start - (mark + 0.5) * spacing - (ownOf(mark) - 0.5) * jitter
      const off = along(p) + (ownOf(mark + 7) - 0.5) * jitter
      return Math.sqrt(beside * beside + off * off)
    },
    own: ({ u }) => ownOf(markOf(u)),
  }
}

/** 1 on a band of this half width round 0, with soft edges. */
export function band(half: number, softness: number, distance: number): number {
  return 1 - step(half - softness, half + softness, Math.abs(distance))
}
