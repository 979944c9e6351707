import type { Command } from '../../domain/commands/command-shapes.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { Told } from './told.ts'

/** What somebody will sign once the host answers. It holds no code: whoever signs gives theirs then. */
export interface PreparedGate {
  /** As it is to be sent, without a signature; `happened` says when the work was done. */
  readonly command: Command
  readonly told: Told | null
  readonly title: string
  /** Line by line what is signed for. */
  readonly says: readonly string[]
  readonly confirm: string
  /** The gate asks for a second person's signature. */
  readonly second: boolean
  readonly cautions: readonly string[]
  /** Why it was refused when somebody signed it. */
  readonly refusal: Refusal | null
}
