import { demoPeople } from '../../db/demo/demo-people.ts'

/** Who looks at the demo, on which screen. */
export const viewers = {
  office: { person: demoPeople.maren, isSignedIn: true, width: 1440, height: 900, colorScheme: 'light' },
  bench: { person: demoPeople.joss, isSignedIn: false, width: 1440, height: 900, colorScheme: 'light' },
  phone: { person: demoPeople.wren, isSignedIn: false, width: 390, height: 844, colorScheme: 'dark' },
} as const
export type Viewer = keyof typeof viewers

export interface Picture {
  /** Of its file, without the ending. */
  readonly name: string
  readonly viewer: Viewer
  readonly at: string
  readonly isInReadme: boolean
  /** The words of a button that is pressed first. */
  readonly press: string | null
}

const picture =
  (viewer: Viewer, isInReadme: boolean) =>
  (name: string, at: string): Picture => ({ name, viewer, at, isInReadme, press: null })

const shown = picture('office', true)
const kept = picture('office', false)

export const pictures: readonly Picture[] = [
  shown('shop-floor', '/shop-floor'),
  { ...shown('plan', '/plan'), press: '3 months' },
  kept('cars', '/cars'),
  shown('estimate', '/cars/demo-pellin?sheet=estimate'),
  kept('hours', '/cars/demo-marrick?sheet=hours'),
  shown('owner-decisions', '/owner-decisions'),
  shown('variance', '/variance'),
  kept('owner-reports', '/owner-reports'),
  kept('bays', '/workshop?sheet=bays'),
  picture('bench', true)('day-sheet', '/day-sheet'),
  picture('bench', true)('car', '/cars/demo-marrick'),
  picture('phone', true)('phone', '/cars/demo-marrick/repairs/demo-marrick-leg-r'),
  picture('phone', false)('phone-day-sheet', '/day-sheet'),
  picture('phone', false)('phone-shop-floor', '/shop-floor'),
]
