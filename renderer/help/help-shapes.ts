/**
 * A page of help. In its text ‘…’ holds the words of a control, tab or heading as they stand on the screen; a test looks each
 * of them up in the screens.
 */
export interface HelpPage {
  readonly title: string
  /** What the screen is for, in one sentence or two. */
  readonly what: string
  readonly parts: readonly HelpPart[]
}

export type HelpPart =
  /** Done one after the other. */
  | { readonly kind: 'steps'; readonly heading: string; readonly lines: readonly string[] }
  /** True side by side. */
  | { readonly kind: 'facts'; readonly heading: string; readonly lines: readonly string[] }
  /** Words and what they mean. */
  | { readonly kind: 'terms'; readonly heading: string; readonly terms: readonly Term[] }
  /** Where somebody can be hurt. */
  | { readonly kind: 'caution'; readonly heading: string; readonly lines: readonly string[] }
  /** The marks of gates, drawn as everywhere. */
  | { readonly kind: 'marks'; readonly heading: string }
  /** Every key by where it works, with the switch of single ones. */
  | { readonly kind: 'keys'; readonly heading: string }
  /** Figures that are reckoned from what is typed there. */
  | { readonly kind: 'reckon'; readonly heading: string; readonly what: Reckoning }

export type Reckoning = 'sheet' | 'bend' | 'rust'

export type Term = readonly [word: string, meaning: string]
