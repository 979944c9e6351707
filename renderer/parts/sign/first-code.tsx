import { useState } from 'react'
import { LEAST_DIGITS_OF_MANAGER, MOST_DIGITS } from '../../../domain/commands/code-digits.ts'
import type { Command } from '../../../domain/commands/command-shapes.ts'
import type { CommandId, PersonId } from '../../../domain/ids.ts'
import { refuse, type Refusal } from '../../../domain/refusal.ts'
import { client, type SessionView } from '../../client.ts'
import { CodePad } from './code-pad.tsx'
import { Dialog } from '../form/dialog.tsx'
import { answered } from '../frame/answered.ts'
import { newId } from '../form/new-id.ts'
import { ELSEWHERE, NO_CODES } from './no-codes-yet.tsx'
import { managersAmong, signIn } from './who-acts.tsx'
import { CodeForm } from './code-form.tsx'
import { PersonInput } from './person-input.tsx'

/** A manager chooses the first code of a workshop that was taken in, and is signed in with it. */
export function FirstCode({
  session,
  onDone,
}: {
  readonly session: SessionView
  readonly onDone: (id: PersonId | null) => void
}) {
  const managers = managersAmong(session.people)
  const [id, setId] = useState<PersonId | null>(managers[0]?.id ?? null)
  const [chosen, setChosen] = useState<string | null>(null)
  const [code, setCode] = useState('')
  const [refusal, setRefusal] = useState<Refusal | null>(null)

  const submit = async () => {
    if (id === null) return
    setCode('')
    if (chosen === null) {
      setRefusal(null)
      setChosen(code)
      return
    }
    const refused = code === chosen ? await chooseCode(id, code) : differing
    setRefusal(refused)
    setChosen(null)
    if (refused === null) onDone(id)
  }

  if (!session.isHostsOwn)
    return (
      <Dialog title="No codes yet" isOpen onClose={() => onDone(null)} size="narrow">
        <p>{NO_CODES}</p>
        <p>{ELSEWHERE}</p>
      </Dialog>
    )
  return (
    <Dialog title="A manager's first code here" isOpen onClose={() => onDone(null)} size="narrow">
      <CodeForm
        submit={chosen === null ? 'Go on' : 'Set the code and sign in'}
        isReady={code.length >= LEAST_DIGITS_OF_MANAGER && id !== null}
        refusal={refusal}
        onSubmit={submit}
      >
        <p className="quiet">
          Choose {LEAST_DIGITS_OF_MANAGER} to {MOST_DIGITS} digits and type them unseen. The code signs for
          you: nobody else should know it.
        </p>
        <PersonInput label="Manager" people={managers} value={id} onChange={setId} />
        <CodePad
          key={chosen === null ? 'first' : 'again'}
          label={
            chosen === null
              ? `New code, ${LEAST_DIGITS_OF_MANAGER} digits or more`
              : 'The same code once more'
          }
          value={code}
          onChange={setCode}
        />
      </CodeForm>
    </Dialog>
  )
}

/** Sent at once and never kept on this device: a code is in it. */
async function chooseCode(id: PersonId, newCode: string): Promise<Refusal | null> {
  const command: Command = {
    id: newId<CommandId>(),
    kind: 'setCode',
    carId: null,
    seen: null,
    by: id,
    code: null,
    second: null,
    happened: null,
    made: new Date().toISOString(),
    payload: { personId: id, newCode },
  }
  const answer = await answered(() => client.command.mutate(command))
  return answer.ok ? signIn(id, newCode) : answer.refusal
}

const { refusal: differing } = refuse('bad-input', 'The two codes differ.', 'Type the same code twice.')
