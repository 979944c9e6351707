import { useEffect, useRef } from 'react'
import type { EntryId } from '../../../domain/ids.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import type { JustDone } from '../../outbox/just-done.ts'
import { Dialog } from '../form/dialog.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { onDemand } from './on-demand.tsx'
import { isSettled } from '../form/settled.ts'
import { newId } from '../form/new-id.ts'
import { useCommand, type CommandState } from '../form/use-command.ts'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

const ReasonDialog = onDemand(async () => (await import('../form/reason-dialog.tsx')).ReasonDialog)

export interface TakeBackProps {
  readonly done: JustDone
  readonly onClose: () => void
}

/** Takes back what was just recorded, as the record would later: with a reason, and signed for by a manager. */
export function TakeBack({ done, onClose }: TakeBackProps) {
  const command = useCommand()
  const { back, told, carId } = done
  if (back.is === 'start again') return <StartAgain done={done} command={command} onClose={onClose} />
  return (
    <ReasonDialog
      title={back.is === 'void' ? 'This never happened' : 'Retire the repair again'}
      label={back.is === 'void' ? 'Why it is voided' : 'Why it is retired'}
      submit={GO_ON_TO_SIGN}
      usual={back.is === 'void' ? back.usualReason : 'Added by mistake.'}
      command={command}
      onClose={onClose}
      onSubmit={(reason): Promise<Outcome> => {
        const says = [told.what, ...(told.where === '' ? [] : [told.where]), `Reason: ${reason}`]
        return back.is === 'void'
          ? command.send({
              kind: 'voidFact',
              carId,
              payload: { number: back.number, reason },
              sign: { title: 'Void a fact', says, confirm: 'Void it' },
            })
          : command.send({
              kind: 'retireRepair',
              carId,
              payload: { repairId: back.repairId, reason },
              sign: { title: 'Retire a repair', says },
            })
      }}
    >
      <p>{[told.what, told.where].filter((words) => words !== '').join(', ')}</p>
      <p className="quiet">
        A manager signs for it. It stays in the record as voided or retired; what a later fact needs cannot be
        taken back.
      </p>
    </ReasonDialog>
  )
}

/** One tap is enough: nothing is taken from the record by it. */
function StartAgain({ done, command, onClose }: TakeBackProps & { readonly command: CommandState }) {
  const isSent = useRef(false)
  useEffect(() => {
    if (isSent.current || done.back.is !== 'start again') return
    isSent.current = true
    const payload = { ...done.back.on, entryId: newId<EntryId>() }
    void command.send({ kind: 'startClock', carId: done.carId, payload }).then((outcome) => {
      if (isSettled(outcome)) onClose()
    })
  }, [command, done, onClose])
  if (command.refusal === null) return null
  return (
    <Dialog title="The clock was not started again" isOpen onClose={onClose} size="narrow">
      <RefusalNote refusal={command.refusal} />
    </Dialog>
  )
}
