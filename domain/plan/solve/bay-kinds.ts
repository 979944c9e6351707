import type { Problem } from '../problem.ts'

/** Which bays are fit for what; in a yard no work is done. */
export interface BayKinds {
  readonly suits: (bay: number, kind: number) => boolean
  /** By bay: those that are fit for the same share a number. */
  readonly kindSet: Int32Array
  readonly kindSets: number
  /** More of what the car needs, and then less of what others need. */
  readonly fitness: (bay: number, car: number) => number
}

/** More kinds than a bay has. */
const KINDS = 100

export function createBayKinds({ bays, cars, activities }: Problem): BayKinds {
  const kinds = bays.map((bay) => new Set(bay.storage ? [] : bay.kinds))
  const ofCar = cars.map(() => new Set<number>())
  for (const { car, bayKind } of activities) if (car !== null && bayKind !== null) ofCar[car]?.add(bayKind)
  const names = kinds.map((own) => [...own].toSorted((a, b) => a - b).join())
  const different = [...new Set(names)]
  return {
    suits: (bay, kind) => bay >= 0 && (kinds[bay] as Set<number>).has(kind),
    kindSet: Int32Array.from(names, (name) => different.indexOf(name)),
    kindSets: different.length,
    fitness: (bay, car) => {
      const own = kinds[bay] as Set<number>
      let fit = 0
      for (const kind of own) if ((ofCar[car] as Set<number>).has(kind)) fit += 1
      return fit - own.size / KINDS
    },
  }
}
