import type { Role } from '../../../domain/facts/workshop-facts.ts'
import type { PersonId } from '../../../domain/ids.ts'
import type { SessionView } from '../../client.ts'

export type Person = SessionView['people'][number]

/** What the person is about to sign for, as the code dialog shows it. */
export interface SignRequest {
  /** 'Pass primed on spare-wheel well' */
  readonly title: string
  /** Line by line what is signed for. */
  readonly says: readonly string[]
  /** Words of the button; 'Sign' unless said. */
  readonly confirm?: string
  readonly roles?: readonly Role[]
  /** The gate asks for a second person's signature. */
  readonly second?: boolean
  readonly cautions?: readonly string[]
  /** The same lines with the time that it was done, for what may be kept prepared while the host is away. */
  readonly later?: readonly string[]
}

export interface Signature {
  readonly by: PersonId
  readonly code: string
  readonly second: { readonly by: PersonId; readonly code: string } | null
}

/** Words of the button of a form that is signed for next. */
export const GO_ON_TO_SIGN = 'Go on to sign'
