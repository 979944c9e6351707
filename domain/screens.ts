/** The screens in the order of menus, each with its address after the host's. */
export const SCREENS = [
  { to: '/shop-floor', words: 'Shop floor' },
  { to: '/plan', words: 'Plan' },
  { to: '/day-sheet', words: 'Day sheet' },
  { to: '/cars', words: 'Cars' },
  { to: '/owner-decisions', words: 'Owner decisions' },
  { to: '/variance', words: 'Variance' },
  { to: '/owner-reports', words: 'Owner reports' },
  { to: '/workshop', words: 'Workshop' },
] as const

export type ScreenAddress = (typeof SCREENS)[number]['to']

/**
 * Where the program's own window can send its page, by the fragment of the page's address: this closed list of words is all
 * that reaches the page from outside it.
 */
export type MenuPlace = ScreenAddress | 'help' | 'keyboard' | 'car-file' | 'check'

const OPENS = '#open='

/** '#open=/plan' */
export function placeToFragment(place: MenuPlace): string {
  return `${OPENS}${place}`
}

/** The place that a fragment names, with or without its '#'; null for any other fragment. */
export function fragmentToPlace(fragment: string): MenuPlace | null {
  const text = fragment.startsWith('#') ? fragment : `#${fragment}`
  return PLACES.find((place) => placeToFragment(place) === text) ?? null
}

const PLACES: readonly MenuPlace[] = [...SCREENS.map(({ to }) => to), 'help', 'keyboard', 'car-file', 'check']
