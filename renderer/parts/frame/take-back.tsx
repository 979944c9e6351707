import { useEffect, useRef } from 'react'
import type { EntryId } from '../../../domain/ids.ts'
import type { JustDone } from '../../outbox/just-done.ts'
import { Dialog } from '../form/dialog.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { onDemand } from './on-demand.tsx'
import { isSettled } from '../form/settled.ts'
import { newId } from '../form/new-id.ts'
import { useCommand, type AnyAct } from '../form/use-command.ts'
import { GO_ON_TO_SIGN } from '../sign/sign-request.ts'

const ReasonDialog = onDemand(async () => (await import('../form/reason-dialog.tsx')).ReasonDialog)

export interface TakeBackProps {
  readonly done: JustDone
  readonly onClose: () => void
}

/** Takes back what was just recorded, as the record would later: with a reason, and signed for by a manager. */
export function TakeBack({ done, onClose }: TakeBackProps) {
  const { back, told } = done
  if (back.is === 'start again') return <StartAgain done={done} onClose={onClose} />
  return (
    <ReasonDialog
      title={back.is === 'void' ? 'This never happened' : 'Retire the repair again'}
      label={back.is === 'void' ? 'Why it is voided' : 'Why it is retired'}
      submit={GO_ON_TO_SIGN}
      usual={back.is === 'void' ? back.usualReason : 'Added by mistake.'}
      onClose={onClose}
      act={(reason) => backAct(done, reason)}
    >
      <p>{[told.what, told.where].filter((words) => words !== '').join(', ')}</p>
      <p className="quiet">
        A manager signs for it. It stays in the record as voided or retired; what a later fact needs cannot be
        taken back.
      </p>
    </ReasonDialog>
  )
}

function backAct({ back, told, carId }: JustDone, reason: string): AnyAct | null {
  const says = [told.what, ...(told.where === '' ? [] : [told.where]), `Reason: ${reason}`]
  switch (back.is) {
    case 'void':
      return {
        kind: 'voidFact',
        carId,
        payload: { number: back.number, reason },
        sign: { title: 'Void a fact', says, confirm: 'Void it' },
      }
    case 'retire':
      return {
        kind: 'retireRepair',
        carId,
        payload: { repairId: back.repairId, reason },
        sign: { title: 'Retire a repair', says },
      }
    case 'start again':
      return null
  }
}

/** One tap is enough: nothing is taken from the record by it. */
function StartAgain({ done, onClose }: TakeBackProps) {
  const command = useCommand()
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
