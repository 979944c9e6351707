import type { SentThing } from './kept.ts'

/** Without any copy of the workshop a restore is not to be expected soon, so what was sent does not stay for ever. */
const WITHOUT_COPIES_MS = 14 * 24 * 3_600_000
const WITHOUT_COPIES_BYTES = 500e6
/** A tablet is for other things too. */
const MOST_BYTES = 2e9
/** Of what the browser gives; above it the next photo may find no room. */
const FULL = 0.8

export interface Space {
  readonly usage: number
  readonly quota: number
}

/**
 * What was sent and need not stay on this device: what a copy holds, what has been here for long while there are no copies,
 * and the oldest first where space runs short. In bytes and milliseconds.
 *
 * @param sent oldest first
 * @param copiedTo the journal number up to which a copy holds everything; null without one
 */
export function whatMayGo(
  sent: readonly SentThing[],
  { copiedTo, now, space }: { readonly copiedTo: number | null; readonly now: number; readonly space: Space },
): readonly SentThing[] {
  const isOver = ({ number, at }: SentThing) =>
    copiedTo === null ? now - at > WITHOUT_COPIES_MS : number <= copiedTo
  const staying = sent.filter((thing) => !isOver(thing))
  const total = staying.reduce((sum, { bytes }) => sum + bytes, 0)
  const most = copiedTo === null ? WITHOUT_COPIES_BYTES : MOST_BYTES
  const tooMuch = Math.max(total - most, space.usage - FULL * space.quota)
  return [...sent.filter(isOver), ...oldestOf(staying, tooMuch)]
}

/** As many of the oldest as hold this many bytes. Entries take no room to speak of and stay. */
export function oldestOf(sent: readonly SentThing[], bytes: number): readonly SentThing[] {
  let left = bytes
  return sent
    .filter((thing) => thing.bytes > 0)
    .toSorted((one, other) => one.at - other.at)
    .filter((thing) => {
      const goes = left > 0
      left -= thing.bytes
      return goes
    })
}
