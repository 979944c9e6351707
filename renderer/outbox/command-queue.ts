import type { Command } from '../../domain/commands/command-shapes.ts'
import type { AttachmentId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { permissions } from '../../domain/roles.ts'
import type { Kept, KeptCommand } from './kept.ts'
import type { Told } from './told.ts'
import {
  answerToOutcome,
  brokenAnswer,
  cannotKeep,
  notSigned,
  refusedTogether,
  type CommandAnswer,
  type Outcome,
} from './outcome.ts'
import { groundsOf, restsOn } from './rests-on.ts'
import { singleFlight } from './single-flight.ts'

export interface CommandPorts {
  readonly kept: Pick<Kept, 'commands' | 'putCommand' | 'dropCommand' | 'commandSent' | 'photoIds'>
  readonly post: (command: Command) => Promise<CommandAnswer>
  /** True for the errors of `post` that mean: no answer came. */
  readonly isAway: (error: unknown) => boolean
  /** Told of what the host has taken in; settles once the screens show it. */
  readonly onAccepted: (command: Command) => Promise<void>
  /** The host's own words in an error of `post`; null where it has none. */
  readonly refusalOf?: (error: unknown) => Refusal | null
  /** The host's clock as this device knows it, ISO 8601 with offset; this device's own unless given. */
  readonly hostNow?: () => string
  /** What a command says; nothing is told of it unless given. */
  readonly tell?: (command: Command) => Told
  /** Runs it while no other page of this device does; at once unless given, as a command that is sent twice does no harm. */
  readonly alone?: <Result>(turn: 'commands' | 'photos', run: () => Promise<Result>) => Promise<Result>
}

export interface CommandQueue {
  /** Never rejects. */
  readonly send: (command: Command) => Promise<Outcome>
  /** Sends what is kept, in order; false when the host is away. Rejects when this device's store cannot be read. */
  readonly flush: () => Promise<boolean>
  /** Whether the last command that went out was answered; true before the first. */
  readonly reached: () => boolean
  /** What rests on these ids is refused with them, unsent. */
  readonly refuseWith: (
    grounds: readonly string[],
    of: CommandId | AttachmentId,
    refusal: Refusal,
  ) => Promise<void>
  /** Lets what was refused wait again, with all that was refused together with it. */
  readonly retry: (id: CommandId | AttachmentId) => Promise<void>
  /** Drops it, with all that was refused together with it. */
  readonly dismiss: (id: CommandId | AttachmentId) => Promise<void>
}

/** From here on a command counts as entered earlier: it is sent with the time of its entry, not taken at the host's. */
export const FRESH_MS = 5_000
const ANSWER_WAIT_MS = 8_000

/**
 * The way of every command from this device: kept first, then sent in order, and out of what waits only when answered. One
 * that is about a photo goes after that photo. What carries a code is never kept: it is sent at once, after what waits, or
 * given back as not signed.
 */
export function createCommandQueue(ports: CommandPorts): CommandQueue {
  const { kept } = ports
  const alone = ports.alone ?? ((_turn, run) => run())
  const waiters = new Map<CommandId, (outcome: Outcome) => void>()
  const entered = new Map<CommandId, number>()
  let reached = true

  const postOnce = async (command: Command): Promise<Outcome> => {
    const outcome = await post(ports, command)
    reached = outcome.is !== 'kept'
    return outcome
  }
  const isFresh = ({ id }: Command): boolean => Date.now() - (entered.get(id) ?? 0) < FRESH_MS
  const refuseWith: CommandQueue['refuseWith'] = async (grounds, of, refusal) => {
    for (const each of await kept.commands()) {
      if (each.refusal !== null || each.command.id === of || !restsOn(each.command, grounds)) continue
      await kept.putCommand({ ...each, refusal: refusedTogether(refusal), refusedWith: of })
      await refuseWith(groundsOf(each.command), of, refusal)
    }
  }
  const settle = async (entry: KeptCommand, outcome: Outcome) => {
    const { command } = entry
    const waiter = waiters.get(command.id)
    waiters.delete(command.id)
    entered.delete(command.id)
    if (outcome.is === 'refused') {
      await (waiter === undefined
        ? kept.putCommand({ ...entry, refusal: outcome.refusal })
        : kept.dropCommand(command.id))
      await refuseWith(groundsOf(command), command.id, outcome.refusal)
    } else if (outcome.is === 'done' && isFromTheFloor(command)) {
      await kept.commandSent(command.id, { number: outcome.revision, at: Date.now() })
    } else await kept.dropCommand(command.id)
    waiter?.(outcome)
  }
  const leaveForLater = () => {
    for (const waiter of waiters.values()) waiter({ is: 'kept' })
    waiters.clear()
    entered.clear()
  }
  const sendWaiting = async (): Promise<boolean> => {
    for (let next = await firstReady(kept); next !== undefined; next = await firstReady(kept)) {
      const outcome = await postOnce(isFresh(next.command) ? next.command : asEntered(next))
      if (outcome.is === 'kept') {
        leaveForLater()
        return false
      }
      await settle(next, outcome)
    }
    return true
  }
  const flush = singleFlight(() => alone('commands', sendWaiting))

  /** Another page of this device may have sent it; or it waits for a photo. */
  const outcomeInStore = async (id: CommandId): Promise<Outcome> => {
    const found = (await kept.commands()).find(({ command }) => command.id === id)
    if (found === undefined) return { is: 'done', revision: 0, numbers: [] }
    if (found.refusal === null) return { is: 'kept' }
    await kept.dropCommand(id)
    return { is: 'refused', refusal: found.refusal }
  }
  const sendKept = async (command: Command): Promise<Outcome> => {
    const { id } = command
    try {
      await kept.putCommand(newlyKept(command, ports))
      entered.set(id, Date.now())
      const outcome = new Promise<Outcome>((resolve) => waiters.set(id, resolve))
      const sent = flush().then(() => (waiters.delete(id) ? outcomeInStore(id) : outcome))
      return await Promise.race([sent, unanswered(id)])
    } catch (error) {
      waiters.delete(id)
      return { is: 'refused', refusal: cannotKeep(error) }
    }
  }
  /** Nobody waits long for a poor network: it is kept, and what becomes of it is told as of anything that is sent later. */
  const unanswered = async (id: CommandId): Promise<Outcome> => {
    await new Promise((resolve) => setTimeout(resolve, ANSWER_WAIT_MS))
    if (waiters.delete(id)) reached = false
    return { is: 'kept' }
  }
  const sendSigned = async (command: Command): Promise<Outcome> => {
    // What waits goes first, as the signature may rest on it; a store that cannot be read must not keep one from signing.
    await flush().catch(() => true)
    const outcome = await postOnce(command)
    return outcome.is === 'kept' ? { is: 'refused', refusal: notSigned } : outcome
  }
  /** The one it is about first, as those that rest on it come after it in any case. */
  const together = async (id: CommandId | AttachmentId) =>
    (await kept.commands()).filter(({ command, refusedWith }) => command.id === id || refusedWith === id)
  return {
    flush,
    reached: () => reached,
    refuseWith,
    send: (command) => (carriesCode(command) ? sendSigned(command) : sendKept(command)),
    retry: async (id) => {
      for (const each of await together(id))
        await kept.putCommand({ ...each, refusal: null, refusedWith: null })
    },
    dismiss: async (id) => {
      for (const { command } of await together(id)) await kept.dropCommand(command.id)
    },
  }
}

function newlyKept(command: Command, { hostNow, tell }: CommandPorts): KeptCommand {
  const stated = hostNow?.() ?? new Date().toISOString()
  return { command, stated, told: tell?.(command) ?? null, refusal: null, refusedWith: null }
}

/** Sent later, it still happened when it was entered. */
const asEntered = ({ command, stated }: KeptCommand): Command => ({
  ...command,
  happened: command.happened ?? stated,
})

/** 'kept' when no answer came. */
async function post(ports: CommandPorts, command: Command): Promise<Outcome> {
  try {
    const outcome = answerToOutcome(await ports.post(command))
    if (outcome.is === 'done') void ports.onAccepted(command)
    return outcome
  } catch (error) {
    if (ports.isAway(error)) return { is: 'kept' }
    return { is: 'refused', refusal: ports.refusalOf?.(error) ?? brokenAnswer(error) }
  }
}

async function firstReady(kept: CommandPorts['kept']): Promise<KeptCommand | undefined> {
  const [commands, photos] = await Promise.all([kept.commands(), kept.photoIds()])
  // What rests on a waiting command stands behind it in any case; but what that one waits for, this one waits for too.
  const grounds = [...photos]
  return commands.find(({ command, refusal }) => {
    if (refusal !== null) return false
    const isReady = !restsOn(command, grounds)
    if (!isReady) grounds.push(...groundsOf(command))
    return isReady
  })
}

/** Only what is entered without a session can be taken in once more after a restore; the rest would be refused. */
const isFromTheFloor = ({ kind }: Command): boolean => permissions[kind].proof === 'named'

const CODE_IN_PAYLOAD: readonly Command['kind'][] = ['setUpWorkshop', 'addPerson', 'changePerson', 'setCode']

const carriesCode = ({ kind, code, second }: Command): boolean =>
  code !== null || second !== null || CODE_IN_PAYLOAD.includes(kind)
