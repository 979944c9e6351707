import type { Command, CommandKind, CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { CarId, RepairId } from '../../domain/ids.ts'
import { createFollowed, useFollowed } from '../followed.ts'
import type { Told } from './told.ts'

/** How what was just recorded is taken back, by the rules that stand for it anyway. */
export type TakeBack =
  /** It never happened: the line of the record with this number is voided. */
  | { readonly is: 'void'; readonly number: number; readonly usualReason: string }
  | { readonly is: 'retire'; readonly repairId: RepairId }
  /** A clock that was stopped by mistake goes on as a new one. */
  | { readonly is: 'start again'; readonly on: Omit<CommandPayload<'startClock'>, 'entryId'> }

export interface JustDone {
  readonly carId: CarId | null
  readonly told: Pick<Told, 'what' | 'where'>
  readonly back: TakeBack
}

const latest = createFollowed<JustDone | null>(null)

/** The last thing that was recorded from this page and may have been a slip of the hand. */
export const justDone = {
  tell: latest.set,
  putAway: () => latest.set(null),
  now: latest.now,
}

/**
 * What the host has taken in, for as long as it is fresh. Several facts at once, as a gate passed on several repairs, have
 * no one line to void and are left to the record.
 */
export function tellDone(command: Command, numbers: readonly number[], told: () => Told): void {
  const back = takeBackOf(command, numbers)
  if (back !== null) latest.set({ carId: command.carId, told: told(), back })
}

export const useJustDone = (): JustDone | null => useFollowed(latest)

/** What hands do in passing, each with the reason that nearly always is the right one; a gate's has to be thought of. */
const USUAL_REASON: Readonly<Partial<Record<CommandKind, string>>> = {
  startClock: 'Started by mistake.',
  logTime: 'Entered by mistake.',
  attachPhoto: 'Taken by mistake.',
  readConditions: 'Read or entered wrongly.',
  readDimension: 'Read or entered wrongly.',
  recordFitUp: 'Read or entered wrongly.',
  countWelds: 'Counted or entered wrongly.',
  checkDrains: 'Ticked by mistake.',
  gradeLayer: 'Graded by mistake.',
  markLayers: 'Said by mistake.',
  passGate: '',
  signTask: '',
}

function takeBackOf({ kind, payload }: Command, numbers: readonly number[]): TakeBack | null {
  if (kind === 'addRepair')
    return { is: 'retire', repairId: (payload as CommandPayload<'addRepair'>).repairId }
  const usualReason = USUAL_REASON[kind]
  const [number, ...others] = numbers
  if (usualReason === undefined || number === undefined || others.length > 0) return null
  return { is: 'void', number, usualReason }
}
