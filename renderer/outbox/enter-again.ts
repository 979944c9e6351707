import { useSyncExternalStore } from 'react'
import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'

let again: Command | null = null
const listeners = new Set<() => void>()

function settle(next: Command | null): void {
  again = next
  for (const listener of listeners) listener()
}

/** Those that have a form which starts from what was entered before. */
export const canBeEnteredAgain = ({ kind }: Command): boolean =>
  kind === 'readConditions' || kind === 'gradeLayer' || kind === 'addFinding'

/** What was refused and is being entered once more, until the form that takes it is closed. */
export const enterAgain = { start: settle, end: () => settle(null), now: () => again }

export function useEnterAgain(): Command | null {
  return useSyncExternalStore(
    (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    () => again,
  )
}

/** Fields as they were entered before, to start a form from; none when something else or nothing is entered again. */
export function enteredBefore<K extends CommandKind, Field extends keyof CommandPayload<K>>(
  kind: K,
  fields: readonly Field[],
): Partial<Pick<CommandPayload<K>, Field>> {
  if (again?.kind !== kind) return {}
  const payload = again.payload as CommandPayload<K>
  return Object.fromEntries(fields.map((field) => [field, payload[field]])) as Partial<
    Pick<CommandPayload<K>, Field>
  >
}
