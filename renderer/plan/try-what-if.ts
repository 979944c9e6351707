import type { WhatIf } from '../../domain/plan/plan.ts'
import type { WhatIfAnswer } from '../../domain/views/plan-view-shapes.ts'
import { client, isHostAway, refusalOf } from '../client.ts'

/** What would come of what is tried. */
export type Foreseen =
  | { readonly is: 'nothing' }
  | { readonly is: 'asked' }
  | { readonly is: 'known'; readonly answer: WhatIfAnswer }
  | { readonly is: 'failed'; readonly words: string }

/** What the plan would be. Never rejects: what went wrong is said in words. */
export async function tryWhatIf(whatIfs: readonly WhatIf[], signal: AbortSignal): Promise<Foreseen> {
  try {
    return { is: 'known', answer: await client.tryWhatIf.mutate({ whatIfs: [...whatIfs] }, { signal }) }
  } catch (error) {
    const refusal = refusalOf(error)
    if (refusal !== null) return { is: 'failed', words: `${refusal.message} ${refusal.next}` }
    if (isHostAway(error)) {
      return { is: 'failed', words: 'The host cannot be reached, so what comes of it is not known.' }
    }
    throw error
  }
}
