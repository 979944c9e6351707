import type { Moment } from '../../domain/car.ts'
import type { Result } from '../../domain/refusal.ts'
import type { UpdateFeed } from '../../domain/updates.ts'

export interface UpdatesState {
  /** Of this program. */
  readonly version: string
  /** Where a newer one is looked for once a week; null where it is off. */
  readonly address: string | null
  /** When it was looked last, and why nothing was found out. */
  readonly tried: { readonly at: Moment; readonly problem: string | null } | null
  /** A version that is newer than this program. */
  readonly newer: UpdateFeed | null
}

/** Looks for newer versions where the workshop says; installs nothing. */
export interface UpdateDesk {
  readonly state: () => UpdatesState
  /** @param address null looks nowhere */
  readonly set: (address: string | null) => Result<true>
  /** Looks now. */
  readonly lookNow: () => Promise<Result<true>>
  /** Looks when a week has gone by. */
  readonly look: () => Promise<void>
}
