import type { PersonId } from '../../../domain/ids.ts'
import type { SessionView } from '../../client.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import { Dialog } from '../form/dialog.tsx'
import { RefusalNote } from '../form/notice.tsx'
import { ConfirmSign } from './confirm-sign.tsx'
import { FirstCode } from './first-code.tsx'
import type { Person, Signature, SignRequest } from './sign-request.ts'
import { ChoosePerson, SignIn } from './who-acts.tsx'

export type Ask =
  /** Signing out has failed. */
  | { readonly kind: 'still signed in'; readonly refusal: Refusal }
  | { readonly kind: 'person'; readonly resolve: (id: PersonId | null) => void }
  | { readonly kind: 'manager'; readonly resolve: (id: PersonId | null) => void }
  | {
      readonly kind: 'signature'
      readonly request: SignRequest
      readonly attempt: (signature: Signature) => Promise<Outcome>
      readonly prepare: (() => Promise<Outcome>) | null
      readonly resolve: (outcome: Outcome) => void
    }

/** The dialogs that ask who acts, and the one that says that somebody still does. */
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
    case 'still signed in':
      return (
        <Dialog title="You are still signed in here" isOpen onClose={onDone} size="narrow">
          <RefusalNote refusal={ask.refusal} />
        </Dialog>
      )
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
