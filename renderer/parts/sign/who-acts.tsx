import { useState } from 'react'
import { LEAST_DIGITS } from '../../../domain/commands/code-digits.ts'
import type { PersonId } from '../../../domain/ids.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import { api, client, queryClient, type SessionView } from '../../client.ts'
import { WordButton } from '../form/button.tsx'
import { CodePad } from './code-pad.tsx'
import { DemoCode } from './demo-code.tsx'
import { Dialog } from '../form/dialog.tsx'
import { answered } from '../frame/answered.ts'
import { CodeForm } from './code-form.tsx'
import { PersonInput } from './person-input.tsx'

type People = SessionView['people']

/** Who is at this device? One tap, no code: nothing is signed by it. */
export function ChoosePerson({
  people,
  onChoose,
}: {
  readonly people: People
  readonly onChoose: (id: PersonId | null) => void
}) {
  return (
    <Dialog title="Who is at this device?" isOpen onClose={() => onChoose(null)} size="narrow">
      <ul className="lines">
        {people
          .filter((person) => person.active)
          .map((person) => (
            <li key={person.id}>
              <WordButton onClick={() => onChoose(person.id)}>{person.name}</WordButton>{' '}
              <span className="quiet small">{[...person.roles, ...person.skills].join(', ')}</span>
            </li>
          ))}
      </ul>
    </Dialog>
  )
}

/** A manager gives the code once; the device then acts for that manager until they leave. */
export function SignIn({
  people,
  isDemo,
  onDone,
}: {
  readonly people: People
  readonly isDemo: boolean
  readonly onDone: (id: PersonId | null) => void
}) {
  const managers = managersAmong(people)
  const [id, setId] = useState<PersonId | null>(managers[0]?.id ?? null)
  const [code, setCode] = useState('')
  const [refusal, setRefusal] = useState<Refusal | null>(null)

  const submit = async () => {
    if (id === null) return
    const refused = await signIn(id, code)
    setCode('')
    setRefusal(refused)
    if (refused === null) onDone(id)
  }

  return (
    <Dialog title="The manager's code" isOpen onClose={() => onDone(null)} size="narrow">
      <CodeForm
        submit="Sign in"
        isReady={code.length >= LEAST_DIGITS && id !== null}
        refusal={refusal}
        onSubmit={submit}
      >
        <p className="quiet">
          This is done by a manager. The device then stays signed in until you leave it.
        </p>
        <PersonInput label="Manager" people={managers} value={id} onChange={setId} />
        <CodePad label="Code" value={code} onChange={setCode} />
        <DemoCode isDemo={isDemo} of={managers.find((person) => person.id === id)} />
      </CodeForm>
    </Dialog>
  )
}

export const managersAmong = (people: People): People =>
  people.filter((person) => person.active && person.roles.includes('manager'))

/** Signs a person in on this device. Null when it is done. */
export async function signIn(personId: PersonId, code: string): Promise<Refusal | null> {
  const answer = await answered(() => client.signIn.mutate({ personId, code }))
  if (!answer.ok) return answer.refusal
  await queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
  // Managers are shown more: figures of money, above all.
  void queryClient.invalidateQueries()
  return null
}
