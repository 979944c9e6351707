import { hasCode, verifyCode } from '../../db/codes.ts'
import type { Database, ReadDatabase } from '../../db/database.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { commandShapes, type Command } from '../../domain/commands/command-shapes.ts'
import type { DeviceId, PersonId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { permissions } from '../../domain/roles.ts'
import type { Person, WorkshopState } from '../../domain/workshop.ts'
import type { Asker } from './pairing.ts'
import type { Sessions } from './sessions.ts'

export interface ProofDeps {
  readonly db: Database
  readonly now: () => Moment
  readonly sessions: Sessions
}

/** What a checked command may rely on: the second signer, when one was named and gave the right code. */
export interface Proved {
  readonly second: PersonId | null
}

/**
 * Checks that the one who acts is who they say they are, as surely as the table of permissions asks for that command. A
 * right code in the command is proof enough for everything. What a role may do is looked at first, so that a code is
 * only tried where it could help.
 */
export async function checkProof(command: Command, asker: Asker, deps: ProofDeps): Promise<Result<Proved>> {
  const allowed = checkRole(command, asker, deps)
  if (!allowed.ok) return allowed
  const proved = isFirstCode(command, asker, deps)
    ? ok(true)
    : await proveActor(command, asker.device.id, deps)
  if (!proved.ok) return proved
  return proveSecond(command, asker.device.id, deps)
}

function checkRole(command: Command, asker: Asker, { db }: ProofDeps): Result<true> {
  const { roles, proof } = permissions[command.kind]
  const workshop = readWorkshop(db)
  if (proof === 'first') {
    if (workshop.setUp) return refuse('already', 'This workshop is set up already.', 'Sign in instead.')
    return asker.isHostsOwn ? ok(true) : notTheHostsWindow
  }
  const person = command.by === null ? undefined : workshop.people.get(command.by)
  if (person?.active !== true) return nobodyChosen
  return person.roles.some((role) => roles.includes(role)) ? ok(true) : managersOnly
}

/**
 * A workshop that was taken in comes without codes: the host's own window, which made the first manager too, lets a manager
 * choose one as long as none has any.
 */
function isFirstCode({ kind, by, code, payload }: Command, asker: Asker, { db }: ProofDeps): boolean {
  if (kind !== 'setCode' || code !== null || !asker.isHostsOwn || hasManagerCode(db)) return false
  const isManager = activeManagers(readWorkshop(db)).some(({ id }) => id === by)
  return isManager && commandShapes.setCode.safeParse(payload).data?.personId === by
}

/** False in a workshop that was taken in, until a manager has chosen a code. */
export function hasManagerCode(db: ReadDatabase): boolean {
  return hasCode(
    db,
    activeManagers(readWorkshop(db)).map(({ id }) => id),
  )
}

const activeManagers = ({ people }: WorkshopState): readonly Person[] =>
  [...people.values()].filter(({ active, roles }) => active && roles.includes('manager'))

async function proveActor(
  { kind, by, code }: Command,
  device: DeviceId,
  { db, now, sessions }: ProofDeps,
): Promise<Result<true>> {
  const { proof } = permissions[kind]
  if (proof === 'first') return ok(true)
  if (by === null) return nobodyChosen
  if (code !== null) {
    const verified = await verifyCode(db, { personId: by, device, code, now: now() })
    return verified.ok ? ok(true) : verified
  }
  switch (proof) {
    case 'named':
      return ok(true)
    case 'session':
      return sessions.person(device) === by ? ok(true) : notSignedIn
    case 'code':
      return codeMissing
  }
}

async function proveSecond(
  { by, second }: Command,
  device: DeviceId,
  { db, now }: ProofDeps,
): Promise<Result<Proved>> {
  if (second === null) return ok({ second: null })
  if (second.by === by) return sameSecond
  if (readWorkshop(db).people.get(second.by)?.active !== true) return nobodyChosen
  const verified = await verifyCode(db, { personId: second.by, device, code: second.code, now: now() })
  return verified.ok ? ok({ second: second.by }) : verified
}

const notTheHostsWindow = refuse(
  'not-allowed',
  'The first manager is made on the computer that Panelwright runs on.',
  'Open its own window there and set the workshop up.',
)
const nobodyChosen = refuse(
  'not-allowed',
  'Nobody is chosen on this device.',
  'Choose who you are and try again.',
)
const managersOnly = refuse(
  'not-allowed',
  'Only a manager may do this.',
  'Ask a manager, or add a note for them.',
)
const notSignedIn = refuse(
  'not-allowed',
  'Nobody who may do this is signed in on this device; a session ends after 30 minutes without use.',
  'Sign in with your code and try again.',
)
const codeMissing = refuse(
  'wrong-code',
  'This is signed with your own code.',
  'Give your code and try again.',
)
const sameSecond = refuse(
  'not-allowed',
  'The second signature must be another person’s.',
  'Let another person sign as the second one.',
)
