import type { Command } from '../../domain/commands/command-shapes.ts'
import type { CommandId } from '../../domain/ids.ts'
import type { Kept } from './kept.ts'
import {
  answerToOutcome,
  brokenAnswer,
  cannotKeep,
  notSigned,
  type CommandAnswer,
  type Outcome,
} from './outcome.ts'
import { singleFlight } from './single-flight.ts'

export interface CommandPorts {
  readonly kept: Pick<Kept, 'commands' | 'putCommand' | 'dropCommand'>
  readonly post: (command: Command) => Promise<CommandAnswer>
  /** True for the errors of `post` that mean: no answer came. */
  readonly isAway: (error: unknown) => boolean
  readonly onAccepted: (command: Command) => void
}

export interface CommandQueue {
  /** Never rejects. */
  readonly send: (command: Command) => Promise<Outcome>
  /** Sends what is kept, in order; false when the host is away. Rejects when this device's store cannot be read. */
  readonly flush: () => Promise<boolean>
}

/**
 * The way of every command from this device: kept first, then sent in order, dropped only when answered. What carries a
 * code is never kept: it is sent at once, after what waits, or given back as not signed.
 */
export function createCommandQueue(ports: CommandPorts): CommandQueue {
  const { kept } = ports
  const waiters = new Map<CommandId, (outcome: Outcome) => void>()

  const settle = async (command: Command, outcome: Outcome) => {
    const waiter = waiters.get(command.id)
    waiters.delete(command.id)
    const isUnread = outcome.is === 'refused' && waiter === undefined
    if (isUnread) await kept.putCommand({ command, refusal: outcome.refusal })
    else await kept.dropCommand(command.id)
    waiter?.(outcome)
  }
  const leaveForLater = () => {
    for (const waiter of waiters.values()) waiter({ is: 'kept' })
    waiters.clear()
  }
  const flush = singleFlight(async () => {
    for (let next = await firstWaiting(kept); next !== undefined; next = await firstWaiting(kept)) {
      const outcome = await postOnce(ports, next)
      if (outcome.is === 'kept') {
        leaveForLater()
        return false
      }
      await settle(next, outcome)
    }
    return true
  })

  const sendKept = async (command: Command): Promise<Outcome> => {
    try {
      await kept.putCommand({ command, refusal: null })
      const outcome = new Promise<Outcome>((resolve) => waiters.set(command.id, resolve))
      await flush()
      return await outcome
    } catch (error) {
      waiters.delete(command.id)
      return { is: 'refused', refusal: cannotKeep(error) }
    }
  }
  const sendSigned = async (command: Command): Promise<Outcome> => {
    // What waits goes first, as the signature may rest on it; a store that cannot be read must not keep one from signing.
    await flush().catch(() => true)
    const outcome = await postOnce(ports, command)
    return outcome.is === 'kept' ? { is: 'refused', refusal: notSigned } : outcome
  }
  return { flush, send: (command) => (isSigned(command) ? sendSigned(command) : sendKept(command)) }
}

/** 'kept' when no answer came. */
async function postOnce(ports: CommandPorts, command: Command): Promise<Outcome> {
  try {
    const outcome = answerToOutcome(await ports.post(command))
    if (outcome.is === 'done') ports.onAccepted(command)
    return outcome
  } catch (error) {
    return ports.isAway(error) ? { is: 'kept' } : { is: 'refused', refusal: brokenAnswer(error) }
  }
}

async function firstWaiting(kept: CommandPorts['kept']): Promise<Command | undefined> {
  return (await kept.commands()).find(({ refusal }) => refusal === null)?.command
}

const isSigned = (command: Command): boolean => command.code !== null || command.second !== null
