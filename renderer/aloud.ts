import { createFollowed, useFollowed } from './followed.ts'

/** Words that a screen reader says by itself. */
export interface Said {
  readonly id: number
  readonly words: string
}

/** Readers take words up within a second; afterwards they would only be met again by who goes through the page. */
const STANDS_MS = 8_000

const said = createFollowed<readonly Said[]>([])
let count = 0

/** Has a screen reader say this once it has finished its sentence; nothing of it is seen. */
export function sayAloud(words: string): void {
  if (words === '') return
  count += 1
  const id = count
  said.set([...said.now(), { id, words }])
  setTimeout(() => said.set(said.now().filter((each) => each.id !== id)), STANDS_MS)
}

export const useSaid = (): readonly Said[] => useFollowed(said)
