import { useState } from 'react'
import { MOST_DIGITS, leastDigits } from '../../domain/commands/code-digits.ts'
import { CodePad } from '../parts/sign/code-pad.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import type { WorkshopPerson } from './workshop-shapes.ts'
import { CodeForm } from '../parts/sign/code-form.tsx'

/** A code set anew: by the person with their old one, or by a manager with theirs where it was forgotten. */
export function CodeDialog({
  person,
  onClose,
}: {
  readonly person: WorkshopPerson
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [code, setCode] = useState('')
  const least = leastDigits(person.roles)
  const submit = async () => {
    const outcome = await command.send({
      kind: 'setCode',
      carId: null,
      payload: { personId: person.id, newCode: code },
      sign: {
        title: `A new code for ${person.name}`,
        says: [
          `${person.name} gives the old code here, or a manager gives theirs.`,
          'From now on only the new code signs.',
        ],
        confirm: 'Set the code',
      },
    })
    if (isSettled(outcome)) onClose()
  }
  return (
    <Dialog title={`${person.name}: code anew`} isOpen onClose={onClose} size="narrow">
      <CodeForm
        submit="Go on to the old code"
        isReady={code.length >= least}
        refusal={command.refusal}
        onSubmit={submit}
      >
        <p className="quiet">
          {person.name} chooses {least} to {MOST_DIGITS} digits and types them unseen. The code signs for
          them: nobody else should know it.
        </p>
        <CodePad label={`New code, ${least} digits or more`} value={code} onChange={setCode} />
      </CodeForm>
    </Dialog>
  )
}
