import type { CarState, GateRecordState, RepairState } from '../car.ts'
import { gateOrder, type Gate } from '../gates.ts'
import type { RepairId } from '../ids.ts'

export const isDone = (repair: RepairState, gate: Gate): boolean => repair.gates[gate].status !== 'open'

export const isActive = (repair: RepairState): boolean => repair.retired === null

export const activeRepairs = (car: CarState): readonly RepairState[] =>
  [...car.repairs.values()].filter(isActive)

/** Painted done with all before it, or closed as found. */
export const isFinished = (repair: RepairState): boolean =>
  repair.closedAsFound !== null || gateOrder(repair.plan).every((gate) => isDone(repair, gate))

/** Every needed gate up to welded is done, or the repair is closed as found: nothing behind it can be seen any more. */
export const isClosed = (repair: RepairState): boolean =>
  repair.closedAsFound !== null ||
  gateOrder(repair.plan)
    .filter((gate) => gate !== 'painted')
    .every((gate) => isDone(repair, gate))

/** From opened until its last needed gate up to welded is done. */
export const standsOpen = (repair: RepairState): boolean =>
  isActive(repair) && isDone(repair, 'opened') && !isClosed(repair)

/** The first gate in the repair's own order that is open; null when finished or retired. */
export const nextGate = (repair: RepairState): Gate | null =>
  isFinished(repair) || !isActive(repair)
    ? null
    : (gateOrder(repair.plan).find((gate) => !isDone(repair, gate)) ?? null)

/** Moment a passed gate was done; null when it is open or was not needed. */
export const passedAt = (record: GateRecordState): number | null =>
  record.done?.kind === 'passed' ? record.done.stamp.happened : null

/** The repairs whose metal must come off to reach this one. */
export const coversOf = (car: Pick<CarState, 'covers'>, id: RepairId): readonly RepairId[] =>
  car.covers.filter((cover) => cover.under === id).map((cover) => cover.over)

/** The repairs that this one covers. */
export const coveredBy = (car: Pick<CarState, 'covers'>, id: RepairId): readonly RepairId[] =>
  car.covers.filter((cover) => cover.over === id).map((cover) => cover.under)

/** All that this repair covers, directly and through others. */
export const descendants = (car: Pick<CarState, 'covers'>, id: RepairId): ReadonlySet<RepairId> =>
  reach(coveredBy(car, id), (each) => coveredBy(car, each))

/** All that covers this repair, directly and through others. */
export const ancestors = (car: Pick<CarState, 'covers'>, id: RepairId): ReadonlySet<RepairId> =>
  reach(coversOf(car, id), (each) => coversOf(car, each))

/** Longest way down to the repair from one that nothing covers; covers have no circles. */
export const depthOf = (car: Pick<CarState, 'covers'>, id: RepairId): number =>
  Math.max(0, ...coversOf(car, id).map((over) => 1 + depthOf(car, over)))

/** The car is away at a firm now. */
export const openAway = (car: CarState) =>
  [...car.aways.values()].find((away) => away.returned === null) ?? null

export interface StandingFault {
  readonly kind: 'closed over' | 'both open'
  readonly repairId: RepairId
  readonly otherId: RepairId
  readonly words: string
}

/**
 * What stands wrong and no gate can undo by itself: a closed repair over unfinished work (a repair or link added
 * under welded metal, or primer stripped away), and two sides open after the lift ended.
 */
export const standingFaults = (car: CarState): readonly StandingFault[] => [
  ...closedOverUnfinished(car),
  ...sidesLeftOpen(car),
]

const closedOverUnfinished = (car: CarState): readonly StandingFault[] =>
  activeRepairs(car)
    .filter(isClosed)
    .flatMap((over) =>
      [...descendants(car, over.id)].flatMap((id) => {
        const under = car.repairs.get(id)
        if (!under || !isActive(under) || isFinished(under)) return []
        const words = `closed over unfinished work: ${over.plan.name} is closed and ${under.plan.name} behind it is not finished; reopen ${over.plan.name}`
        return [{ kind: 'closed over' as const, repairId: over.id, otherId: under.id, words }]
      }),
    )

const sidesLeftOpen = (car: CarState): readonly StandingFault[] => {
  const open = loadBearingOpen(car)
  return open.flatMap((a, index) =>
    open.slice(index + 1).flatMap((b) => {
      if (a.plan.zone.side === b.plan.zone.side || isLifted(car, a.id, b.id)) return []
      const words = `${a.plan.name} and ${b.plan.name} stand open on different sides without support; close one, or say how the shell is held`
      return [{ kind: 'both open' as const, repairId: a.id, otherId: b.id, words }]
    }),
  )
}

export const loadBearingOpen = (car: CarState): readonly RepairState[] =>
  activeRepairs(car).filter(
    (repair) => repair.plan.loadBearing && repair.plan.on === 'shell' && standsOpen(repair),
  )

/** The manager has said how the shell is held while both stand open, and it has not been moved since. */
export const isLifted = (car: Pick<CarState, 'lifts'>, a: RepairId, b: RepairId): boolean =>
  [...car.lifts.values()].some(
    (lift) => lift.ended === null && lift.repairIds.includes(a) && lift.repairIds.includes(b),
  )

/** All that some repairs lead to by steps, these themselves among them. */
export const reach = (
  from: readonly RepairId[],
  next: (id: RepairId) => readonly RepairId[],
): ReadonlySet<RepairId> => {
  const seen = new Set<RepairId>()
  const waiting = [...from]
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop())
    if (!seen.has(id)) {
      seen.add(id)
      waiting.push(...next(id))
    }
  return seen
}
