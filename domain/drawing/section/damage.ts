import type { Grade } from '../../facts/shapes.ts'
import type { Loss } from './sheet-metal.ts'

/** How the damage of a sheet looks along its run. Holes are stretches where no metal is left. */
export interface Damage {
  readonly lossAt: (x: number) => Loss
  readonly holes: readonly { readonly from: number; readonly to: number }[]
}

export interface DamagedRun {
  readonly from: number
  readonly to: number
  /** The face that looks into the cavity, where rust begins. */
  readonly face: 'upper' | 'lower'
  /** Share of the thickness that is left at the worst pit, when it was measured. */
  readonly left: number | null
  /** Different sheets are eaten differently, the same one always alike. */
  readonly seed: number
}

/** The grade as drawn: pitted is scalloped, holed is scalloped with gaps; sound, surface and gone lose nothing here. */
export function damageOf(grade: Grade, run: DamagedRun): Damage {
  switch (grade) {
    case 'sound':
    case 'surface':
    case 'gone':
      return { lossAt: () => NO_LOSS, holes: [] }
    case 'pitted':
      return { lossAt: pitsAlong(run, 1 - (run.left ?? 0.5)), holes: [] }
    case 'holed': {
      const holes = holesAlong(run)
      const pits = pitsAlong(run, 0.6)
      return { lossAt: (x) => worse(pits(x), raggedEdge(x, holes)), holes }
    }
  }
}

export const NO_LOSS: Loss = { upper: 0, lower: 0 }

/** Places of the short ticks of surface rust, in uneven clusters. */
export function ticksAlong({ from, to, seed }: DamagedRun): readonly number[] {
  const next = series(seed)
  const places: number[] = []
  for (let x = from + 3; x < to - 3; x += 3.5 + next() * 4 + (next() > 0.8 ? 9 : 0)) places.push(x)
  return places
}

/** The pits: scallops of different width and depth, the deepest `deepest` of the thickness, both faces together. */
function pitsAlong(run: DamagedRun, deepest: number): (x: number) => Loss {
  const next = series(run.seed)
  const pits: { readonly at: number; readonly reach: number; readonly depth: number }[] = []
  for (let x = run.from + 4; x < run.to - 5; x += 6 + next() * 9)
    pits.push({ at: x, reach: 3 + next() * 3.5, depth: 0.45 + next() * 0.55 })
  const most = Math.max(0.01, ...pits.map((pit) => pit.depth))
  const share = Math.min(0.85, Math.max(0.15, deepest)) / most
  return (x) => {
    const depth = Math.max(0, ...pits.map((pit) => pit.depth * scallop((x - pit.at) / pit.reach))) * share
    const cavity = depth * 0.8
    const other = depth * 0.2
    return run.face === 'upper' ? { upper: cavity, lower: other } : { upper: other, lower: cavity }
  }
}

const scallop = (t: number): number => (Math.abs(t) < 1 ? Math.sqrt(1 - t * t) : 0)

function holesAlong({ from, to, seed }: DamagedRun): Damage['holes'] {
  const next = series(seed + 7)
  const length = to - from
  return [0.22, 0.58].map((share) => {
    const start = from + length * (share + next() * 0.08)
    return { from: start, to: start + Math.max(7, length * (0.09 + next() * 0.06)) }
  })
}

/** Towards a hole the metal thins out over five units. */
function raggedEdge(x: number, holes: Damage['holes']): Loss {
  const nearest = Math.min(...holes.map(({ from, to }) => (x < from ? from - x : x > to ? x - to : 0)))
  const loss = nearest < 5 ? 0.42 * (1 - nearest / 5) : 0
  return { upper: loss, lower: loss }
}

function worse(a: Loss, b: Loss): Loss {
  return {
    upper: Math.min(0.46, Math.max(a.upper, b.upper)),
    lower: Math.min(0.46, Math.max(a.lower, b.lower)),
  }
}

/** A repeatable series between 0 and 1 (linear congruential, Numerical Recipes' constants, from memory). */
function series(seed: number): () => number {
  let state = (seed * 2_654_435_761 + 12_345) >>> 0
  return () => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0
    return state / 4_294_967_296
  }
}
