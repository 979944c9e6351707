import type { LinkGraph } from '../../domain/links/clashes.ts'
import type { RepairId } from '../../domain/ids.ts'

/**
 * Looks for an order of work by trying every one, knowing nothing of how the program decides: the rules of the trade
 * written again over six stages of a repair. 0 closed and untouched, 1 open, 2 primed, 3 trial-fitted, 4 welded, 5 painted.
 */
export interface WorkCase {
  readonly graph: LinkGraph
  readonly ids: readonly RepairId[]
  readonly start: readonly number[]
}

/** An order exists in which everything ends painted, welded metal over unfinished work being reopened first. */
export const hasOrder = (work: WorkCase): boolean => explore(work, true).some((state) => isGoal(state))

/**
 * From every state that can be reached by working forwards, the end can still be reached. `mayOpen` says whether a hold
 * of the program itself lets an untouched repair be opened in a state.
 */
export const hasNoDeadEnd = (
  work: WorkCase,
  mayOpen: (state: readonly number[], index: number) => boolean,
): boolean => {
  const states = explore(work, false, mayOpen)
  const reaches = new Set(states.filter(isGoal).map(keyOf))
  const before = new Map<string, string[]>()
  for (const state of states)
    for (const next of steps(work, state, false, mayOpen))
      before.set(keyOf(next), [...(before.get(keyOf(next)) ?? []), keyOf(state)])
  const waiting = [...reaches]
  for (let key = waiting.pop(); key !== undefined; key = waiting.pop())
    for (const earlier of before.get(key) ?? [])
      if (!reaches.has(earlier)) {
        reaches.add(earlier)
        waiting.push(earlier)
      }
  return states.every((state) => reaches.has(keyOf(state)))
}

/** The same state after some random legal steps, so that the search does not always begin with an untouched car. */
export const workOn = (work: WorkCase, choices: readonly number[]): readonly number[] => {
  let state = work.start
  for (const choice of choices) {
    const next = steps(work, state, false)
    if (next.length === 0) break
    state = next[choice % next.length] ?? state
  }
  return state
}

type State = readonly number[]
const keyOf = (state: State): string => state.join('')
const isGoal = (state: State): boolean => state.every((stage) => stage === 5)
const isOpen = (stage: number | undefined): boolean => stage !== undefined && stage >= 1 && stage <= 3

const explore = (work: WorkCase, withReopening: boolean, mayOpen: MayOpen = always): readonly State[] => {
  const seen = new Map<string, State>([[keyOf(work.start), work.start]])
  const waiting: State[] = [work.start]
  for (let state = waiting.pop(); state !== undefined; state = waiting.pop())
    for (const next of steps(work, state, withReopening, mayOpen))
      if (!seen.has(keyOf(next))) {
        seen.set(keyOf(next), next)
        waiting.push(next)
      }
  return [...seen.values()]
}

type MayOpen = (state: State, index: number) => boolean
const always: MayOpen = () => true

const steps = (
  work: WorkCase,
  state: State,
  withReopening: boolean,
  mayOpen: MayOpen = always,
): readonly State[] =>
  work.ids.flatMap((_, index) => {
    const stage = state[index] ?? 0
    const free = stage > 0 || mayOpen(state, index)
    const next = free && maySteps(work, state, index) ? [state.with(index, stage + 1)] : []
    const back = withReopening && stage >= 4 && mayReopen(work, state, index) ? [state.with(index, 3)] : []
    return [...next, ...back]
  })

const maySteps = (work: WorkCase, state: State, index: number): boolean => {
  if (!areCoversOpen(work, state, index)) return false
  switch (state[index]) {
    case 0:
      return isSupported(work, state, index)
    case 2:
      return fits(work, state, index)
    case 3:
      return isNothingUnfinishedBehind(work, state, index)
    case 5:
      return false
    default:
      return true
  }
}

const mayReopen = (work: WorkCase, state: State, index: number): boolean =>
  areCoversOpen(work, state, index) && isSupported(work, state, index)

const stageOf = (work: WorkCase, state: State, id: RepairId): number => state[work.ids.indexOf(id)] ?? 0

const areCoversOpen = (work: WorkCase, state: State, index: number): boolean =>
  work.graph.covers
    .filter((cover) => cover.under === work.ids[index])
    .every((cover) => isOpen(stageOf(work, state, cover.over)))

const isNothingUnfinishedBehind = (work: WorkCase, state: State, index: number): boolean =>
  work.graph.covers
    .filter((cover) => cover.over === work.ids[index])
    .every((cover) => stageOf(work, state, cover.under) === 5)

const fits = (work: WorkCase, state: State, index: number): boolean =>
  work.graph.groups
    .filter((group) => group.members.some((id) => id === work.ids[index]))
    .every((group) => group.members.every((id) => [2, 3, 4, 5].includes(stageOf(work, state, id))))

const isSupported = (work: WorkCase, state: State, index: number): boolean => {
  const own = work.graph.nodes.get(work.ids[index]!)!
  if (!own.loadBearing) return true
  return work.ids.every((id, other) => {
    const node = work.graph.nodes.get(id)!
    const clear = other === index || !node.loadBearing || node.side === own.side || !isOpen(state[other])
    return clear || work.graph.isLifted(own.id, id)
  })
}
