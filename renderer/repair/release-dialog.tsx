import { useState } from 'react'
import type { HoldView } from '../../domain/views/shared-views.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { ChoiceRow, SelectInput } from '../parts/form/inputs.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { ReasonDialog } from '../parts/form/reason-dialog.tsx'
import type { AnyAct } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

type Way = 'ask' | 'release'

/** Asks the manager to release a hold, or releases it with a reason and the manager's code. */
export function ReleaseDialog({
  hold: given,
  onClose,
}: {
  readonly hold: HoldView | null
  readonly onClose: () => void
}) {
  const { view } = useRepair()
  const { manager } = useActor()
  const holds = [...(view.next?.holds ?? []), ...(view.next?.skillHolds ?? [])].filter(
    (hold) => hold.releasable && hold.released === null,
  )
  const [key, setKey] = useState<string | null>(given === null ? null : keyOf(given))
  const [way, setWay] = useState<Way>(manager === null ? 'ask' : 'release')
  const hold = holds.find((each) => keyOf(each) === key)
  const gate = view.next?.gate

  const act = (reason: string): AnyAct | null => {
    if (hold === undefined || gate === undefined) return null
    const { code, subject, words } = hold
    const payload = { repairId: view.repair.id, gate, code, subject, reason }
    const { carId } = view.car
    return way === 'ask'
      ? { kind: 'askRelease', carId, payload }
      : {
          kind: 'releaseHold',
          carId,
          payload,
          sign: {
            title: 'Release a hold',
            says: [`${view.repair.name}, ${gate}`, words, `Reason: ${reason}`],
            confirm: 'Release it',
          },
        }
  }

  return (
    <ReasonDialog
      title={way === 'ask' ? 'Ask for a release' : 'Release a hold'}
      label={way === 'ask' ? 'Why it should be released' : 'Why it is released'}
      submit={way === 'ask' ? 'Ask the manager' : GO_ON_TO_SIGN}
      onClose={onClose}
      act={act}
    >
      <SelectInput
        label="Which hold"
        choices={holds.map((each) => ({ value: keyOf(each), words: each.words }))}
        value={key}
        onChange={setKey}
        none="choose a hold"
      />
      {holds.length === 0 && <p>Nothing that holds this gate can be released.</p>}
      {hold !== undefined && (
        <Notice kind="held">
          <p>{hold.words}</p>
        </Notice>
      )}
      <ChoiceRow label="How" choices={WAYS} value={way} onChange={setWay} />
      {way === 'release' && (
        <p className="small quiet">
          A release stands in the record and in the car’s file for ever. Order and closing in order are never
          released.
        </p>
      )}
    </ReasonDialog>
  )
}

const WAYS: readonly { readonly value: Way; readonly words: string }[] = [
  { value: 'ask', words: 'ask the manager' },
  { value: 'release', words: 'release it as manager' },
]

const keyOf = ({ code, subject }: HoldView): string => `${code} ${subject}`
