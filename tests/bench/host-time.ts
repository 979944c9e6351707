/*
 * Loaded into the host before it starts, with --import, and into its workers: the host's clock runs by so many milliseconds beside
 * this computer's, so that a filled workshop is shown as on its own last day.
 */
import process from 'node:process'

const RealDate = Date
const offset = Number(process.env.BENCH_CLOCK_OFFSET_MS ?? 0)

class DateOfHost extends RealDate {
  constructor(...parts: readonly unknown[]) {
    super(...((parts.length === 0 ? [RealDate.now() + offset] : parts) as [number]))
  }

  static override now(): number {
    return RealDate.now() + offset
  }
}

globalThis.Date = DateOfHost as unknown as DateConstructor
