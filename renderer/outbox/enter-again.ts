import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import { createFollowed, useFollowed } from '../followed.ts'

const again = createFollowed<Command | null>(null)

/** Those that have a form which starts from what was entered before. */
export const canBeEnteredAgain = ({ kind }: Command): boolean =>
  kind === 'readConditions' || kind === 'gradeLayer' || kind === 'addFinding'

/** What was refused and is being entered once more, until the form that takes it is closed. */
export const enterAgain = { start: again.set, end: () => again.set(null), now: again.now }

export const useEnterAgain = (): Command | null => useFollowed(again)

/** Fields as they were entered before, to start a form from; none when something else or nothing is entered again. */
export function enteredBefore<K extends CommandKind, Field extends keyof CommandPayload<K>>(
  kind: K,
  fields: readonly Field[],
): Partial<Pick<CommandPayload<K>, Field>> {
  const command = again.now()
  if (command?.kind !== kind) return {}
  const payload = command.payload as CommandPayload<K>
  return Object.fromEntries(fields.map((field) => [field, payload[field]])) as Partial<
    Pick<CommandPayload<K>, Field>
  >
}
