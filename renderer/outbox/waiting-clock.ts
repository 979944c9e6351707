import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { EntryId, PersonId } from '../../domain/ids.ts'
import type { ClockView } from '../../domain/views/shared-views.ts'
import type { KeptCommand } from './kept.ts'
import { useOutbox } from './outbox.ts'

/** The person's clock as it runs once what waits on this device has arrived: it can be stopped before the host knows it. */
export function useWaitingClock(known: ClockView | null, personId: PersonId | null): ClockView | null {
  return clockWithWaiting(known, personId, useOutbox().commands)
}

export function clockWithWaiting(
  known: ClockView | null,
  personId: PersonId | null,
  waiting: readonly KeptCommand[],
): ClockView | null {
  let clock = known
  for (const kept of waiting) {
    if (kept.command.kind === 'stopClock') {
      const { entryId } = kept.command.payload as CommandPayload<'stopClock'>
      if ((clock?.entryId as EntryId | undefined) === entryId) clock = null
    }
    if (kept.command.kind === 'startClock') clock = startedBy(kept, personId) ?? clock
  }
  return clock
}

function startedBy({ command, stated, told }: KeptCommand, person: PersonId | null): ClockView | null {
  const { entryId, personId, on, hotWork, cause } = command.payload as CommandPayload<'startClock'>
  if (personId !== person) return null
  const since = Date.parse(stated)
  return {
    entryId,
    personId,
    person: told?.by ?? '',
    carId: command.carId,
    carName: told?.where ?? '',
    what: told?.on ?? 'work that waits to be sent',
    on,
    rework: cause !== null,
    // The shares by the estimates are the host's to work out, also where it is stopped without any said.
    parts: [],
    since,
    hotWork,
    pastDayEnd: false,
    countsTo: since,
    stoppedAt: null,
  }
}
