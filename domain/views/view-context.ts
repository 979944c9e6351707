import type { Moment, Stamp } from '../car.ts'
import type { HoldContext } from '../rules/hold.ts'
import { localDateOf } from '../time/zone.ts'
import type { WorkshopState } from '../workshop.ts'
import type { NameOf } from './shared-views.ts'

/** What every screen's builder is given beside the cars. */
export interface ViewInput {
  readonly now: Moment
  readonly workshop: WorkshopState
  readonly nameOf: NameOf
}

/** The same as the rules and the hours take it: holds are asked for whoever does the work. */
export interface ViewContext extends HoldContext {
  readonly did: null
  readonly nameOf: NameOf
  /** The local date now, YYYY-MM-DD. */
  readonly today: string
  /** The year now: dates in it are said without their year. */
  readonly year: number
}

export function createViewContext({ now, workshop, nameOf }: ViewInput): ViewContext {
  const today = localDateOf(now, workshop.zone)
  return { at: now, workshop, nameOf, did: null, today, year: Number(today.slice(0, 4)) }
}

/** Who stated a fact; the first set-up of a workshop has nobody yet. */
export function stampName(stamp: Pick<Stamp, 'by'>, nameOf: NameOf): string {
  return stamp.by === null ? 'the workshop' : nameOf(stamp.by)
}
