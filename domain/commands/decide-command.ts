import type { PersonId } from '../ids.ts'
import { refuse, type Result } from '../refusal.ts'
import { permissions } from '../roles.ts'
import type { WorkshopState } from '../workshop.ts'
import { commandShapes, type Command, type CommandKind } from './command-shapes.ts'
import { agreementDeciders } from './decide-agreement.ts'
import { carDeciders } from './decide-car.ts'
import { evidenceDeciders } from './decide-evidence.ts'
import { photoDeciders } from './decide-photo.ts'
import { gateDeciders } from './decide-gate.ts'
import { linkDeciders } from './decide-links.ts'
import { moneyDeciders } from './decide-money.ts'
import { placeDeciders } from './decide-place.ts'
import { planDeciders } from './decide-plan.ts'
import { repairDeciders } from './decide-repair.ts'
import { taskDeciders } from './decide-task.ts'
import { timeDeciders } from './decide-time.ts'
import { variationDeciders } from './decide-variation.ts'
import { voidDeciders } from './decide-void.ts'
import { workshopDeciders } from './decide-workshop.ts'
import type { Decided, DecideContext } from './decide.ts'
import { firstRefusal, refuseIf, type Decider, type Refused } from './deciders.ts'

const deciders: { readonly [K in CommandKind]: Decider<K> } = {
  ...workshopDeciders,
  ...carDeciders,
  ...repairDeciders,
  ...linkDeciders,
  ...gateDeciders,
  ...taskDeciders,
  ...evidenceDeciders,
  ...photoDeciders,
  ...agreementDeciders,
  ...variationDeciders,
  ...moneyDeciders,
  ...timeDeciders,
  ...placeDeciders,
  ...planDeciders,
  ...voidDeciders,
}

/** Minutes that a stated time may lie ahead of the host: clocks of devices differ. */
const AHEAD_MINUTES = 5

/**
 * Decides a command from the facts so far: either the facts it adds, or why not and what to do. The host has checked
 * who acts; what that person's role may do is checked here.
 */
export const decideCommand = (command: Command, context: DecideContext): Result<Decided> => {
  const parsed = commandShapes[command.kind].safeParse(command.payload)
  if (!parsed.success) {
    const issue = parsed.error.issues[0]
    const where = issue && issue.path.length > 0 ? ` (${issue.path.join(' ')})` : ''
    return refuse(
      'bad-input',
      `${issue?.message ?? 'This cannot be read.'}${where}`,
      'Correct it and send it again.',
    )
  }
  const refused = firstRefusal(roleRefusal(command.kind, context), timeRefusal(context))
  if (refused) return refused
  // The payload was parsed by the shape of the same kind, which TypeScript cannot follow through the table.
  const decide = deciders[command.kind] as (payload: unknown, context: DecideContext) => Result<Decided>
  return decide(parsed.data, context)
}

const roleRefusal = (kind: CommandKind, { by, workshop }: DecideContext): Refused | null => {
  const { roles, proof } = permissions[kind]
  if (proof === 'first' || isTakenByItself(kind, by, workshop)) return null
  const person = by ? workshop.people.get(by) : undefined
  if (!person?.active)
    return refuse('not-allowed', 'Nobody is chosen on this device.', 'Choose who you are and try again.')
  return refuseIf(
    !person.roles.some((role) => roles.includes(role)),
    'not-allowed',
    'Only a manager may do this.',
    'Ask a manager, or add a note for them.',
  )
}

/** Where the manager has said so, the host takes a plan and nobody acts; no device gets past the door without a person. */
const isTakenByItself = (kind: CommandKind, by: PersonId | null, workshop: WorkshopState): boolean =>
  kind === 'takePlan' && by === null && workshop.planning.takeByItself

const timeRefusal = ({ now, happened }: DecideContext): Refused | null =>
  refuseIf(
    happened > now + AHEAD_MINUTES * 60_000,
    'bad-input',
    'The stated time lies in the future.',
    'Correct the time, or the clock of this device.',
  )
