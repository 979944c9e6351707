import type { Choice } from './inputs.tsx'

/** Words that stand for themselves, as choices of a field. */
export const asChoices = <Value extends string>(values: readonly Value[]): readonly Choice<Value>[] =>
  values.map((value) => ({ value, words: value }))
