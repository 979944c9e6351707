import type { PersonId } from '../../../domain/ids.ts'
import type { SessionView } from '../../client.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import { ConfirmSign } from '../sign/confirm-sign.tsx'
import { FirstCode } from '../sign/first-code.tsx'
import type { Person, Signature, SignRequest } from '../sign/sign-request.ts'
import { ChoosePerson, SignIn } from '../sign/who-acts.tsx'

export type Ask =
  | { readonly kind: 'person'; readonly resolve: (id: PersonId | null) => void }
  | { readonly kind: 'manager'; readonly resolve: (id: PersonId | null) => void }
  | {
      readonly kind: 'signature'
      readonly request: SignRequest
      readonly attempt: (signature: Signature) => Promise<Outcome>
      readonly prepare: (() => Promise<Outcome>) | null
      readonly resolve: (outcome: Outcome) => void
    }

/** The three dialogs that ask who acts. */
export function AskDialog({
  ask,
  session,
  person,
  manager,
  choosePerson,
  onDone,
}: {
  readonly ask: Ask
  readonly session: SessionView
  readonly person: Person | null
  readonly manager: Person | null
  readonly choosePerson: (id: PersonId | null) => void
  readonly onDone: () => void
}) {
  const answer = <Value,>(resolve: (value: Value) => void, value: Value) => {
    onDone()
    resolve(value)
  }
  switch (ask.kind) {
    case 'person':
      return (
        <ChoosePerson
          people={session.people}
          onChoose={(id) => {
            if (id !== null) choosePerson(id)
            answer(ask.resolve, id)
          }}
        />
      )
    case 'manager':
      return session.hasManagerCode ? (
        <SignIn people={session.people} isDemo={session.demo} onDone={(id) => answer(ask.resolve, id)} />
      ) : (
        <FirstCode session={session} onDone={(id) => answer(ask.resolve, id)} />
      )
    case 'signature':
      return (
        <ConfirmSign
          request={ask.request}
          people={session.people}
          isDemo={session.demo}
          first={person ?? manager}
          manager={manager}
          attempt={ask.attempt}
          prepare={ask.prepare}
          onDone={(outcome) => answer(ask.resolve, outcome)}
        />
      )
  }
}
