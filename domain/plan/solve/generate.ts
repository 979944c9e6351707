import type { PlanBay } from '../problem.ts'
import type { Schedule } from '../schedule.ts'
import { createChoices } from './choices.ts'
import { type Compiled, indicesOf, offsetsOf, rowLength } from './compile.ts'
import { type CrewDemand, crewDemands, signatories } from './crew-demand.ts'
import { createCrews } from './crews.ts'
import type { Decoder } from './decoder.ts'
import { createFloor } from './floor.ts'
import { createLine } from './line.ts'
import { createResourceProfile } from './resource-profile.ts'
import { createReckoning } from './score.ts'
import { createShellMoves } from './shell-moves.ts'
import { createHeld } from './stands.ts'
import { NEVER } from './working-time.ts'

/** Serial schedule generation (Kelley 1963): each activity of a list in turn at the earliest tick that all allows. */
export interface Generator extends Decoder {
  /** The schedule of the last list. */
  readonly schedule: () => Schedule
}

export function createGenerator(compiled: Compiled): Generator {
  const { size, horizon, problem, work, earliest, car, bayKind, predecessors, lags, successors } = compiled
  const crews = createCrews(compiled)
  const choices = createChoices(compiled)
  const floor = createFloor(compiled, crews, choices.bay)
  const held = createHeld(compiled)
  const profile = createResourceProfile(
    problem.resources.map((each) => each.capacity),
    problem.activities.map((each) => each.uses),
  )
  const demands = crewDemands(compiled)
  const waitsOn = Int32Array.from({ length: size }, (_, a) => rowLength(predecessors, a))
  const bayWork = problem.cars.map((_, index) =>
    indicesOf(car, index).filter((a) => (bayKind[a] as number) >= 0),
  )

  const starts = new Int32Array(size)
  const finishes = new Int32Array(size)
  const bays = new Int32Array(size)
  const crewOffsets = offsetsOf(compiled.crewSize)
  const crewItems = new Int32Array(crewOffsets[size] as number)
  const isPlaced = new Uint8Array(size)
  const isDead = new Uint8Array(size)
  /** Asks for more of a resource than there is. */
  const isHopeless = Uint8Array.from({ length: size }, (_, row) => (profile.canFit(row) ? 0 : 1))
  const waiting = new Int32Array(size)
  const bayLeft = new Int32Array(problem.cars.length)
  const line = createLine(compiled)

  const clear = (): void => {
    crews.clear()
    floor.clear()
    held.clear()
    profile.clear()
    starts.fill(NEVER)
    finishes.fill(NEVER)
    isPlaced.fill(0)
    isDead.set(isHopeless)
    waiting.set(waitsOn)
    shells.clear()
    bayWork.forEach((own, index) => {
      bayLeft[index] = own.length
      if (own.length === 0) floor.leave(index)
    })
  }

  const isOpen = (activity: number): boolean =>
    isPlaced[activity] === 0 && isDead[activity] === 0 && waiting[activity] === 0
  const shells = createShellMoves(compiled, {
    floor,
    held,
    choices,
    work: {
      openFrom: (activity) => (isOpen(activity) ? boundOf(activity) : NEVER),
      isPlaced: (activity) => isPlaced[activity] === 1,
      isLastInBay: (of) => bayLeft[of] === 1,
      finishFrom: (activity, tick) => {
        fit(activity, tick)
        return crews.finish
      },
    },
  })

  /** Earliest tick by dates, links and what is held; NEVER while something is held without an end. */
  const boundOf = (activity: number): number => {
    let tick = Math.max(earliest[activity] as number, held.from(activity))
    for (
      let at = predecessors.offsets[activity] as number;
      at < (predecessors.offsets[activity + 1] as number);
      at += 1
    )
      tick = Math.max(tick, (finishes[predecessors.items[at] as number] as number) + (lags[at] as number))
    return tick
  }

  /** Finds people and resources from `tick` on; what was found stands in `crews`. */
  const fit = (activity: number, tick: number): void => {
    const demand = demands[activity] as CrewDemand | null
    let from = tick
    for (;;) {
      if (demand === null || demand.work === 0) {
        crews.start = from
        crews.finish = from + (work[activity] as number)
      } else crews.find(demand, from, choices.crew[activity] as number)
      if (crews.start === NEVER) return
      const free = profile.earliest(activity, crews.start, crews.finish - crews.start)
      if (free === crews.start) return
      from = free
    }
  }

  /** Unless it makes room for itself it need not be looked at again before a bay of its kind is let go or its car is moved. */
  const waitForBay = (activity: number): false => {
    const makesRoom = choices.claims[activity] !== 0
    if (!makesRoom && !floor.hasFree(bayKind[activity] as number, car[activity] as number))
      line.sleep(activity)
    return false
  }

  const place = (activity: number): boolean => {
    let bound = boundOf(activity)
    if (bound >= NEVER) return false
    shells.fetchBefore(activity)
    const kind = bayKind[activity] as number
    const of = car[activity] as number
    if (kind < 0) fit(activity, bound)
    else
      for (let tries = 0; ; tries += 1) {
        if (tries === BAY_TRIES || !shells.bringFor(activity, bound)) return waitForBay(activity)
        bound = Math.max(bound, floor.since[of] as number)
        const finish = (): number => {
          fit(activity, bound)
          return crews.finish
        }
        if (bayLeft[of] === 1 && floor.isDoneInTime(of, finish)) break
        fit(activity, bound)
        if (crews.finish <= (floor.limit[of] as number)) break
        shells.stayIsTooShort(activity)
      }
    if (crews.start === NEVER || crews.finish > horizon) {
      isDead[activity] = 1
      line.remove(activity)
      return false
    }
    record(activity)
    return true
  }

  const record = (activity: number): void => {
    const { start, finish } = crews
    starts[activity] = start
    finishes[activity] = finish
    isPlaced[activity] = 1
    const demand = demands[activity]
    if (demand) {
      if (demand.work === 0) signatories(demand, crews.chosen)
      else crews.take(demand.people)
      const from = crewOffsets[activity] as number
      for (let at = 0; at < demand.people; at += 1) crewItems[from + at] = crews.chosen[at] as number
    }
    profile.reserve(activity, start, finish)
    for (
      let at = successors.offsets[activity] as number;
      at < (successors.offsets[activity + 1] as number);
      at += 1
    ) {
      const successor = successors.items[at] as number
      waiting[successor] = (waiting[successor] as number) - 1
      if (isOpen(successor)) line.add(successor)
    }
    held.take(activity, finish)
    if ((bayKind[activity] as number) >= 0) occupyBay(activity, finish)
  }

  const occupyBay = (activity: number, finish: number): void => {
    const of = car[activity] as number
    bays[activity] = floor.bay[of] as number
    floor.busyTo[of] = Math.max(floor.busyTo[of] as number, finish)
    bayLeft[of] = (bayLeft[of] as number) - 1
    if (bayLeft[of] === 0) floor.leave(of)
  }

  /** Bays that were let go and cars that were moved wake who waits for that; true when a bay was let go. */
  const wake = (): boolean => {
    if (floor.moved.length === 0 && floor.released.length === 0) return false
    for (const moved of floor.moved) line.wakeCar(moved)
    for (const bay of floor.released) line.wakeFor((problem.bays[bay] as PlanBay).kinds)
    const isReleased = floor.released.length > 0
    floor.moved.length = 0
    floor.released.length = 0
    return isReleased
  }

  /** One pass along the line of what is not placed yet; true when anything was. Starts anew when a bay or a side comes free. */
  const pass = (): boolean => {
    let hasPlaced = false
    wake()
    for (let activity = line.after(-1); activity >= 0; activity = line.after(activity)) {
      const isPlacedNow = place(activity)
      const isReleased = wake()
      if (!isPlacedNow) continue
      hasPlaced = true
      line.remove(activity)
      if (held.released || isReleased) activity = -1
    }
    return hasPlaced
  }

  /** Cars that wait for each other's bays: the first one that can do nothing where it stands goes to the yard. */
  const unblock = (): boolean => {
    line.wakeAll()
    for (let activity = line.after(-1); activity >= 0; activity = line.after(activity)) {
      const kind = bayKind[activity] as number
      if (kind < 0) continue
      for (let bay = 0; bay < problem.bays.length; bay += 1) {
        const other = floor.holder[bay] as number
        if (other < 0 || other === car[activity] || !floor.suits(bay, kind) || bayLeft[other] === 0) continue
        if (shells.isStuck(other) && shells.giveWay(other)) return true
      }
    }
    return false
  }

  const reckoning = createReckoning(compiled, { starts, finishes, crewOffsets, crewItems })
  return {
    size,
    starts,
    finishes,
    choices,
    score: reckoning.score,
    decode: (list) => {
      clear()
      line.lay(list)
      for (let activity = 0; activity < size; activity += 1) if (isOpen(activity)) line.add(activity)
      while (pass() || unblock());
      floor.clearOut()
      reckoning.reckon(floor.moves.length, floor.stays)
    },
    schedule: () => ({
      placed: Array.from({ length: size }, (_, activity) =>
        isPlaced[activity] === 0
          ? null
          : {
              start: starts[activity] as number,
              finish: finishes[activity] as number,
              crew: Array.from(crewItems.subarray(crewOffsets[activity], crewOffsets[activity + 1])),
              bay: (bayKind[activity] as number) < 0 ? null : (bays[activity] as number),
            },
      ),
      stays: floor.stays.map((stay) => ({ ...stay })),
      moves: [...floor.moves],
    }),
  }
}

/** A bay that is booked for another soon is left for a longer one this often at most. */
const BAY_TRIES = 4
