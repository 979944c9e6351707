import { useSyncExternalStore } from 'react'

/** Words that a screen reader says by itself. */
export interface Said {
  readonly id: number
  readonly words: string
}

/** Readers take words up within a second; afterwards they would only be met again by who goes through the page. */
const STANDS_MS = 8_000

let said: readonly Said[] = []
let count = 0
const listeners = new Set<() => void>()

function settle(next: readonly Said[]): void {
  said = next
  for (const listener of listeners) listener()
}

/** Has a screen reader say this once it has finished its sentence; nothing of it is seen. */
export function sayAloud(words: string): void {
  if (words === '') return
  count += 1
  const id = count
  settle([...said, { id, words }])
  setTimeout(() => settle(said.filter((each) => each.id !== id)), STANDS_MS)
}

export const useSaid = (): readonly Said[] => useSyncExternalStore(subscribe, () => said)

function subscribe(listener: () => void): () => void {
  listeners.add(listener)
  return () => listeners.delete(listener)
}
