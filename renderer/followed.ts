import { useSyncExternalStore } from 'react'

/** A value outside of any screen: those that show it are drawn anew when another one takes its place. */
export interface Followed<Value> {
  readonly now: () => Value
  readonly set: (next: Value) => void
  /** @returns what ends it */
  readonly subscribe: (listener: () => void) => () => void
}

export function createFollowed<Value>(first: Value): Followed<Value> {
  let now = first
  const listeners = new Set<() => void>()
  return {
    now: () => now,
    set: (next) => {
      now = next
      for (const listener of listeners) listener()
    },
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
  }
}

/** The value as it is now, on a screen. */
export const useFollowed = <Value>({ now, subscribe }: Followed<Value>): Value =>
  useSyncExternalStore(subscribe, now)
