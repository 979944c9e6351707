import { createContext, useContext, useMemo, useState, type ReactNode } from 'react'
import type { Moment } from '../../../domain/car.ts'
import type { PersonId } from '../../../domain/ids.ts'
import { api, client, queryClient, type SessionView } from '../../client.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import type { Ask } from './ask-dialog.tsx'
import { answered } from '../frame/answered.ts'
import { onDemand } from '../frame/on-demand.tsx'
import type { Person, Signature, SignRequest } from './sign-request.ts'

const AskDialog = onDemand(async () => (await import('./ask-dialog.tsx')).AskDialog)

export interface Actor {
  readonly session: SessionView
  /** Chosen on this device, without a code: whose clock and readings these are. */
  readonly person: Person | null
  /** The manager who has given the code on this device and not left since. */
  readonly manager: Person | null
  readonly choosePerson: (id: PersonId | null) => void
  /** The chosen person; asks when nobody is. Null when the dialog was closed. */
  readonly askPerson: () => Promise<PersonId | null>
  /** The signed-in manager; asks for the code when nobody is, or anew. Null when the dialog was closed. */
  readonly askManager: (anew?: boolean) => Promise<PersonId | null>
  /** Shows what is signed for and asks for a code; `attempt` is tried until it is not refused or the person gives up. */
  readonly askSignature: (
    request: SignRequest,
    attempt: (signature: Signature) => Promise<Outcome>,
    /** Keeps it to be signed later, while the host is away; null where that is not to be. */
    prepare?: (() => Promise<Outcome>) | null,
  ) => Promise<Outcome>
  readonly signOut: () => Promise<void>
  /** The host's clock by this device's, whose own may be off: fire watches go by it. */
  readonly hostNow: () => Moment
  /** A moment of this device's clock by the host's. */
  readonly hostTimeOf: (at: Moment) => Moment
}

const ActorContext = createContext<Actor | null>(null)

/** Who acts at this device, with the three dialogs that ask for it. */
export function ActorProvider({
  session,
  readAt,
  children,
}: {
  readonly session: SessionView
  /** This device's time when the session was read. */
  readonly readAt: Moment
  readonly children: ReactNode
}) {
  const [personId, setPersonId] = useState(readPersonId)
  const [ask, setAsk] = useState<Ask | null>(null)

  const actor = useMemo<Actor>(() => {
    const active = session.people.filter((person) => person.active)
    const person = active.find((each) => each.id === personId) ?? null
    const manager = active.find((each) => each.id === session.signedIn) ?? null
    const choosePerson = (id: PersonId | null) => {
      keepPersonId(id)
      setPersonId(id)
    }
    return {
      session,
      person,
      manager,
      choosePerson,
      askPerson: async () => {
        const known = person ?? manager
        if (known !== null) return known.id
        return new Promise((resolve) => setAsk({ kind: 'person', resolve }))
      },
      askManager: async (anew = false) =>
        (anew ? null : signedInNow(session)) ??
        new Promise((resolve) => setAsk({ kind: 'manager', resolve })),
      askSignature: (request, attempt, prepare = null) =>
        new Promise((resolve) => setAsk({ kind: 'signature', request, attempt, prepare, resolve })),
      signOut: async () => {
        const answer = await answered(() => client.signOut.mutate())
        if (!answer.ok) return setAsk({ kind: 'still signed in', refusal: answer.refusal })
        await queryClient.invalidateQueries({ queryKey: api.session.queryKey() })
        // Managers are shown more: figures of money, above all. What is on no screen goes, as it may be opened without the host.
        queryClient.removeQueries({ type: 'inactive' })
        void queryClient.invalidateQueries()
      },
      hostNow: () => Date.now() + session.now - readAt,
      hostTimeOf: (at) => at + session.now - readAt,
    }
  }, [session, readAt, personId])

  return (
    <ActorContext value={actor}>
      {children}
      {ask !== null && <AskDialog ask={ask} {...actor} onDone={() => setAsk(null)} />}
    </ActorContext>
  )
}

/** As it was read last: a form that sends several acts has asked for the code with its first one. */
function signedInNow(session: SessionView): PersonId | null {
  const { people, signedIn } = queryClient.getQueryData(api.session.queryKey()) ?? session
  return people.find(({ id, active }) => active && id === signedIn)?.id ?? null
}

export function useActor(): Actor {
  const actor = useContext(ActorContext)
  if (actor === null) throw new Error('useActor needs an ActorProvider above it')
  return actor
}

const KEY = 'panelwright.person'

/** Who was chosen last on this device, whether they still work here or not. */
export function readPersonId(): PersonId | null {
  return localStorage.getItem(KEY) as PersonId | null
}

function keepPersonId(id: PersonId | null): void {
  if (id === null) localStorage.removeItem(KEY)
  else localStorage.setItem(KEY, id)
}
