import { useQuery } from '@tanstack/react-query'
import { useState, type ReactNode } from 'react'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import { REWORK_CAUSES, type ReworkCause, type WorkTarget } from '../../domain/facts/shapes.ts'
import type { CarId, EntryId, PersonId } from '../../domain/ids.ts'
import type { ClockView } from '../../domain/views/shared-views.ts'
import { api } from '../client.ts'
import { useActor } from './actor.tsx'
import { Button } from './button.tsx'
import { Dialog } from './dialog.tsx'
import { newId } from './new-id.ts'
import { useCommand, type CommandState } from './use-command.ts'

export interface ClockWork {
  readonly carId: CarId
  readonly targets: readonly WorkTarget[]
  readonly hotWork: boolean
  /** The gate or task is passed already: hours on it are rework, and the cause is asked. */
  readonly isRework: boolean
}

export interface Clock {
  /** The clock of the person at this device; null when none runs or nobody is chosen. */
  readonly mine: ClockView | null
  /** Stops the person's clock where one runs, and starts it on this. */
  readonly start: (work: ClockWork) => void
  readonly startOnWorkshop: (what: string) => void
  readonly stop: (clock: ClockView) => void
  readonly command: CommandState
  /** Asks for the cause of rework; put it anywhere into the page. */
  readonly dialog: ReactNode
}

/** Clocking in and out with one tap: one person works in one place at a time, so what ran before is stopped. */
export function useClock(): Clock {
  const { person, askPerson } = useActor()
  const command = useCommand()
  const [asked, setAsked] = useState<ClockWork | null>(null)
  const sheet = useQuery(
    api.daySheet.queryOptions({ personId: person?.id ?? ('' as PersonId) }, { enabled: person !== null }),
  )
  const mine = person === null ? null : (sheet.data?.clock ?? null)

  const stop = (clock: ClockView) =>
    command.send({
      kind: 'stopClock',
      carId: clock.carId as CarId | null,
      payload: { entryId: clock.entryId as EntryId, overtime: false, shares: null },
    })
  const startAt = async (carId: CarId | null, on: StartOn) => {
    const personId = await askPerson()
    if (personId === null) return
    if (mine !== null) {
      const stopped = await stop(mine)
      if (stopped.is !== 'done' && stopped.is !== 'kept') return
    }
    await command.send({ kind: 'startClock', carId, payload: { entryId: newId<EntryId>(), personId, ...on } })
  }
  const startWork = ({ carId, targets, hotWork }: ClockWork, cause: ReworkCause | null) =>
    startAt(carId, { on: { kind: 'work', targets: [...targets] }, hotWork, cause })

  return {
    mine,
    command,
    stop: (clock) => void stop(clock),
    start: (work) => (work.isRework ? setAsked(work) : void startWork(work, null)),
    startOnWorkshop: (what) =>
      void startAt(null, { on: { kind: 'workshop', what }, hotWork: false, cause: null }),
    dialog: asked && (
      <ReworkCauseDialog
        onClose={() => setAsked(null)}
        onChoose={(cause) => {
          setAsked(null)
          void startWork(asked, cause)
        }}
      />
    ),
  }
}

type StartOn = Pick<CommandPayload<'startClock'>, 'on' | 'hotWork' | 'cause'>

function ReworkCauseDialog({
  onChoose,
  onClose,
}: {
  readonly onChoose: (cause: ReworkCause) => void
  readonly onClose: () => void
}) {
  return (
    <Dialog title="Why is it done again?" isOpen onClose={onClose} size="narrow">
      <p>This is passed already, so its hours are rework. Choose the cause; the clock starts with it.</p>
      <div className="stack-tight">
        {REWORK_CAUSES.map((cause) => (
          <Button key={cause} onClick={() => onChoose(cause)}>
            {cause}
          </Button>
        ))}
      </div>
    </Dialog>
  )
}
