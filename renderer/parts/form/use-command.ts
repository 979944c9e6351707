import { useCallback, useState } from 'react'
import type { Command, CommandKind, CommandPayload } from '../../../domain/commands/command-shapes.ts'
import type { CarId, CommandId, PersonId } from '../../../domain/ids.ts'
import type { Refusal } from '../../../domain/refusal.ts'
import { permissions } from '../../../domain/roles.ts'
import type { Outcome } from '../../outbox/outcome.ts'
import { enterAgain } from '../../outbox/enter-again.ts'
import { outbox } from '../../outbox/outbox.ts'
import { instantToIso } from '../../../domain/time/zone.ts'
import { useActor, type Actor } from '../sign/actor.tsx'
import type { Signature, SignRequest } from '../sign/sign-request.ts'
import { newId } from './new-id.ts'
import { isSettled } from './settled.ts'

export interface Act<K extends CommandKind> {
  readonly kind: K
  /** The car it is about; null for the workshop itself. */
  readonly carId: CarId | null
  readonly payload: CommandPayload<K>
  /** The car's revision that the screen shows, for edits that must not overwrite another's. */
  readonly seen?: number
  /** When it happened, if not now: ISO 8601 with offset. */
  readonly happened?: string
  /** What is signed for; needed for the commands whose proof is a code. */
  readonly sign?: SignRequest
}

/** The act of any one command. */
export type AnyAct = { readonly [K in CommandKind]: Act<K> }[CommandKind]

export interface CommandState {
  /** Sends the act, asking first for who acts or for a code where `domain/roles.ts` says so. Never rejects. */
  readonly send: <K extends CommandKind>(act: Act<K>) => Promise<Outcome>
  readonly isBusy: boolean
  /** Why the last act was refused; null again when the next one is sent. */
  readonly refusal: Refusal | null
  readonly clear: () => void
}

/** The straight path of every action on a screen. */
export function useCommand(): CommandState {
  const actor = useActor()
  const [isBusy, setIsBusy] = useState(false)
  const [refusal, setRefusal] = useState<Refusal | null>(null)

  const send = useCallback(
    async <K extends CommandKind>(act: Act<K>): Promise<Outcome> => {
      setRefusal(null)
      setIsBusy(true)
      const outcome = await sendAs(actor, act)
      setIsBusy(false)
      if (outcome.is === 'refused') setRefusal(outcome.refusal)
      const again = enterAgain.now()
      // What took its place is in, so that nobody need decide about it any more.
      if (again?.kind === act.kind && isSettled(outcome)) {
        enterAgain.end()
        await outbox.dismissCommand(again.id)
      }
      return outcome
    },
    [actor],
  )
  return { send, isBusy, refusal, clear: useCallback(() => setRefusal(null), []) }
}

async function sendAs<K extends CommandKind>(actor: Actor, act: Act<K>): Promise<Outcome> {
  const id = newId<CommandId>()
  const permission = permissions[act.kind]
  switch (permission.proof) {
    case 'first':
      return outbox.send(envelope(id, act, unsigned(null)))
    case 'named': {
      const by = await actor.askPerson()
      return by === null ? { is: 'cancelled' } : outbox.send(envelope(id, act, unsigned(by)))
    }
    case 'session':
      return sendAsManager(actor, id, act)
    case 'code':
      return actor.askSignature(
        { title: 'Sign', says: [], roles: permission.roles, ...act.sign },
        // The same id at every try: if an answer was lost on its way, the repeat brings it back.
        (signature) => outbox.send(envelope(id, act, signature)),
        act.sign?.later === undefined ? null : () => prepare(actor, id, act, act.sign?.later ?? []),
      )
  }
}

/** A session ends after a while without use: the host then says so, and the code is asked for once more. */
async function sendAsManager<K extends CommandKind>(
  actor: Actor,
  id: CommandId,
  act: Act<K>,
): Promise<Outcome> {
  const by = await actor.askManager()
  if (by === null) return { is: 'cancelled' }
  const outcome = await outbox.send(envelope(id, act, unsigned(by)))
  if (outcome.is !== 'refused' || outcome.refusal.code !== 'not-allowed') return outcome
  const again = await actor.askManager(true)
  return again === null ? outcome : outbox.send(envelope(id, act, unsigned(again)))
}

/** What would be signed is kept on this device, without a code and with the time that the work was done. */
async function prepare<K extends CommandKind>(
  { hostNow, session }: Actor,
  id: CommandId,
  act: Act<K>,
  says: readonly string[],
): Promise<Outcome> {
  const happened = act.happened ?? instantToIso(hostNow(), session.zone)
  const { title = 'Sign', confirm = 'Sign', second = false, cautions = [] } = act.sign ?? {}
  const command = envelope(id, { ...act, happened }, unsigned(null))
  const refusal = await outbox.prepare({ command, title, says, confirm, second, cautions })
  return refusal === null ? { is: 'prepared' } : { is: 'refused', refusal }
}

interface Proof {
  readonly by: PersonId | null
  readonly code: string | null
  readonly second: Signature['second']
}

const unsigned = (by: PersonId | null): Proof => ({ by, code: null, second: null })

function envelope<K extends CommandKind>(id: CommandId, act: Act<K>, proof: Proof): Command {
  return {
    id,
    kind: act.kind,
    carId: act.carId,
    seen: act.seen ?? null,
    ...proof,
    happened: act.happened ?? null,
    made: new Date().toISOString(),
    payload: act.payload,
  }
}
