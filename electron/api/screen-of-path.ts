const SCREENS: readonly (readonly [path: RegExp, screen: string])[] = [
  [/^\/(shop-floor)?$/, 'shop-floor'],
  [/^\/cars\/[^/]+$/, 'car'],
  [/^\/cars\/[^/]+\/repairs\/[^/]+$/, 'repair'],
  [/^\/variance\/were-we-right$/, 'were-we-right'],
  [/^\/(cars|card|day-sheet|first-run|help|owner-decisions|owner-reports|plan|variance|workshop)$/, ''],
]

/** The screen that an address leads to, by the name of its source file; null for an address of none. */
export function screenOfPath(path: string): string | null {
  const found = SCREENS.find(([pattern]) => pattern.test(path))
  return found === undefined ? null : found[1] || path.slice(1)
}
