import type { WhatIf } from '../../domain/plan/plan.ts'

/** What is assumed, and how the list says it. */
export interface Assumption {
  readonly whatIf: WhatIf
  readonly words: string
}

/** The form of each kind of assumption. */
export interface WhatIfFormProps {
  /** @param part the name of the part that is late */
  readonly onAssume: (whatIf: WhatIf, part?: string) => void
}
