import { useQuery } from '@tanstack/react-query'
import { useState, type ReactNode } from 'react'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import { REWORK_CAUSES, type ReworkCause, type WorkTarget } from '../../../domain/facts/shapes.ts'
import type { CarId, EntryId, PersonId } from '../../../domain/ids.ts'
import type { ClockView } from '../../../domain/views/shared-views.ts'
import type { DaySheetLine } from '../../../domain/views/view-shapes.ts'
import { api } from '../../client.ts'
import { useIsAway } from '../../live.ts'
import { justDone } from '../../outbox/just-done.ts'
import { useWaitingClock } from '../../outbox/waiting-clock.ts'
import { useActor } from '../sign/actor.tsx'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { onDemand } from '../frame/on-demand.tsx'
import { isSettled } from '../form/settled.ts'
import { newId } from '../form/new-id.ts'
import { useCommand, type CommandState } from '../form/use-command.ts'

const ShareHoursDialog = onDemand(async () => (await import('./share-hours-dialog.tsx')).ShareHoursDialog)

export interface ClockWork {
  readonly carId: CarId
  readonly targets: readonly WorkTarget[]
  readonly hotWork: boolean
  /** The gate or task is passed already: hours on it are rework, and the cause is asked. */
  readonly isRework: boolean
}

export interface Clock {
  /** The clock of the person at this device, a manager who is signed in unless somebody is chosen; null when none runs. */
  readonly mine: ClockView | null
  /** False until the host has said which clock runs, or cannot be asked. */
  readonly isKnown: boolean
  /** What that person can do now. */
  readonly canDo: readonly DaySheetLine[]
  /** Stops the person's clock where one runs, and starts it on this. */
  readonly start: (work: ClockWork) => void
  readonly startOnWorkshop: (what: string) => void
  /** Stops it; one on several repairs or tasks asks first how its hours are shared. */
  readonly stop: (clock: ClockView) => void
  readonly command: CommandState
  /** Asks for the cause of rework, or for shares; put it anywhere into the page. */
  readonly dialog: ReactNode
}

/** Clocking in and out with one tap: one person works in one place at a time, so what ran before is stopped. */
export function useClock(): Clock {
  const { person, manager, askPerson } = useActor()
  const me = (person ?? manager)?.id ?? null
  const command = useCommand()
  const [asked, setAsked] = useState<Asked | null>(null)
  const sheet = useQuery(
    api.daySheet.queryOptions({ personId: me ?? ('' as PersonId) }, { enabled: me !== null }),
  )
  const isAway = useIsAway()
  const mine = useWaitingClock(me === null ? null : (sheet.data?.clock ?? null), me)

  /** `after` is done once it is stopped. */
  const stopSharing = async (clock: ClockView, shares: readonly number[] | null, after: After) => {
    const outcome = await command.send({
      kind: 'stopClock',
      carId: clock.carId as CarId | null,
      payload: { entryId: clock.entryId as EntryId, overtime: false, shares: shares && [...shares] },
    })
    if (!isSettled(outcome)) return
    setAsked(null)
    if (after === null && outcome.is === 'done') tellStopped(clock)
    await after?.()
  }
  const stop = async (clock: ClockView, after: After) =>
    clock.parts.length > 1 ? setAsked({ is: 'shares', clock, after }) : stopSharing(clock, null, after)
  const startAt = async (carId: CarId | null, on: StartOn) => {
    const personId = await askPerson()
    if (personId === null) return
    const start = async () => {
      const payload = { entryId: newId<EntryId>(), personId, ...on }
      await command.send({ kind: 'startClock', carId, payload })
    }
    await (mine === null ? start() : stop(mine, start))
  }
  const startWork = ({ carId, targets, hotWork }: ClockWork, cause: ReworkCause | null) =>
    startAt(carId, { on: { kind: 'work', targets: [...targets] }, hotWork, cause })

  return {
    mine,
    isKnown: me === null || !sheet.isPending || sheet.failureCount > 0 || isAway,
    canDo: me === null ? [] : (sheet.data?.canDo ?? []),
    command,
    stop: (clock) => void stop(clock, null),
    start: (work) => (work.isRework ? setAsked({ is: 'cause', work }) : void startWork(work, null)),
    startOnWorkshop: (what) =>
      void startAt(null, { on: { kind: 'workshop', what }, hotWork: false, cause: null }),
    dialog:
      asked?.is === 'cause' ? (
        <ReworkCauseDialog
          onClose={() => setAsked(null)}
          onChoose={(cause) => {
            setAsked(null)
            void startWork(asked.work, cause)
          }}
        />
      ) : asked?.is === 'shares' ? (
        <ShareHoursDialog
          clock={asked.clock}
          command={command}
          onStop={(shares) => void stopSharing(asked.clock, shares, asked.after)}
          onClose={() => setAsked(null)}
        />
      ) : null,
  }
}

/** Rework asks for its cause anew, so that it is started where that is asked. */
function tellStopped({ carId, carName, what, on, personId, hotWork, rework }: ClockView): void {
  if (rework) return
  const again = on.kind === 'work' ? { ...on, targets: [...on.targets] } : on
  justDone.tell({
    carId: carId as CarId | null,
    told: { what: `Clock stopped on ${what}`, where: carName },
    back: { is: 'start again', on: { personId, on: again, hotWork, cause: null } },
  })
}

type After = (() => Promise<void>) | null

type Asked =
  | { readonly is: 'cause'; readonly work: ClockWork }
  | { readonly is: 'shares'; readonly clock: ClockView; readonly after: After }

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
