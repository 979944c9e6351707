/** The pages of help, in the order of their list; the first is shown when the address names none. */
export const HELP_NAMES = [
  'begin',
  'shop-floor',
  'day-sheet',
  'repair',
  'car',
  'cars',
  'card',
  'plan',
  'owner-decisions',
  'owner-reports',
  'variance',
  'were-we-right',
  'workshop',
  'tablets',
  'keyboard',
  'safety',
  'words',
] as const
export type HelpName = (typeof HELP_NAMES)[number]

const BY_PLACE: readonly (readonly [RegExp, HelpName])[] = [
  [/^\/shop-floor/, 'shop-floor'],
  [/^\/day-sheet/, 'day-sheet'],
  [/^\/cars\/[^/]+\/repairs\//, 'repair'],
  [/^\/cars\/./, 'car'],
  [/^\/cars/, 'cars'],
  [/^\/card/, 'card'],
  [/^\/plan/, 'plan'],
  [/^\/owner-decisions/, 'owner-decisions'],
  [/^\/owner-reports/, 'owner-reports'],
  [/^\/variance\/were-we-right/, 'were-we-right'],
  [/^\/variance/, 'variance'],
  [/^\/workshop/, 'workshop'],
]

/** The page that explains the screen at a path. */
export const helpFor = (pathname: string): HelpName =>
  BY_PLACE.find(([place]) => place.test(pathname))?.[1] ?? HELP_NAMES[0]
