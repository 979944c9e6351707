/** Addresses that are called like their screens. */
const CALLED_ALIKE =
  /^\/(cars|card|day-sheet|first-run|help|owner-decisions|owner-reports|plan|shop-floor|variance|workshop)$/

const OTHERS: readonly (readonly [path: RegExp, screen: string])[] = [
  [/^\/$/, 'shop-floor'],
  [/^\/cars\/[^/]+$/, 'car'],
  [/^\/cars\/[^/]+\/repairs\/[^/]+$/, 'repair'],
  [/^\/variance\/were-we-right$/, 'were-we-right'],
]

/** The screen that an address leads to, by the name of its source file; null for an address of none. */
export const screenOfPath = (path: string): string | null =>
  CALLED_ALIKE.exec(path)?.[1] ?? OTHERS.find(([pattern]) => pattern.test(path))?.[1] ?? null
