import type { Mark } from './screens-probe.ts'

/** A screen that is opened from cold. */
export interface ColdScreen {
  readonly name: string
  readonly mark: Mark
}

/** A click that leads to a screen, from the one that the move before it led to. */
export interface Move extends ColdScreen {
  readonly click: string
}

/** A car in work and one of its repairs. */
export interface OneCar {
  readonly carPath: string
  readonly carTitle: string
  readonly repairPath: string
  readonly repairTitle: string
}

const screen = (
  name: string,
  path: string,
  heading: string | null,
  drawn = 'main .screen-head',
): ColdScreen => ({
  name,
  mark: { path, heading, drawn },
})

export const SHOP_FLOOR = screen('shop floor', '/shop-floor', 'Shop floor', 'main .floor-plan svg')
const DAY_SHEET = screen('day sheet', '/day-sheet', null, 'main svg.gate-strip')
export const PLAN = screen('plan', '/plan', 'Plan', 'main [data-key]')
const CARS = screen('cars', '/cars', 'Cars', 'main li a[href^="/cars/"]')

const PLAN_LIST = screen('plan, list', '/plan?sheet=list', 'Plan', 'main fieldset + div h2')
const WHAT_IF = screen('plan, what if', '/plan?sheet=what-if', 'Plan', 'main form')
const DECISIONS = screen('owner decisions', '/owner-decisions', 'Owner decisions', 'main section')
const VARIANCE = screen('variance', '/variance', 'Variance', 'main h2')
const REPORTS = screen('owner reports', '/owner-reports', 'Owner reports', 'main h2')
const WORKSHOP = screen('workshop', '/workshop', null, 'main nav.tabs + div h2')
const BAYS = screen(
  'workshop, bays',
  '/workshop?sheet=bays',
  null,
  'main svg[aria-label^="Plan of the floor"]',
)
const CALENDAR = screen('workshop, week', '/workshop?sheet=week', null, 'main nav.tabs + div *')
const PLANNING = screen('workshop, planning', '/workshop?sheet=planning', null, 'main nav.tabs + div h2')
const TYPES = screen('workshop, types', '/workshop?sheet=types', null, 'main nav.tabs + div *')
const CONTACTS = screen('workshop, contacts', '/workshop?sheet=contacts', null, 'main nav.tabs + div *')

const carScreen = (of: OneCar, sheet: string, drawn: string): ColdScreen =>
  screen(
    sheet === '' ? 'car' : `car, ${sheet}`,
    sheet === '' ? of.carPath : `${of.carPath}?sheet=${sheet}`,
    of.carTitle,
    drawn,
  )
const carMap = (of: OneCar) => carScreen(of, '', 'main svg')
const repair = (of: OneCar) => screen('repair', of.repairPath, of.repairTitle, 'main svg.section')

export const coldScreens = (of: OneCar): readonly ColdScreen[] => [
  SHOP_FLOOR,
  PLAN,
  PLAN_LIST,
  WHAT_IF,
  DAY_SHEET,
  CARS,
  carMap(of),
  carScreen(of, 'photos', 'main h2.hidden-word'),
  carScreen(of, 'hours', 'main h2.hidden-word'),
  carScreen(of, 'record', 'main h2.hidden-word'),
  repair(of),
  DECISIONS,
  VARIANCE,
  screen('were we right', '/variance/were-we-right', 'Were we right', 'main svg.drawing'),
  REPORTS,
  WORKSHOP,
  BAYS,
  CALENDAR,
  PLANNING,
  TYPES,
  CONTACTS,
]

/** From the shop floor through the list of screens, with the sheets of those that have some, and back to the shop floor. */
export function moves(of: OneCar): readonly Move[] {
  const through = (
    target: ColdScreen,
    click = `nav[aria-label="Screens"] a[href="${target.mark.path}"]`,
  ) => ({
    ...target,
    click,
  })
  const tab = (target: ColdScreen): Move => {
    const here = `main nav a[href="${target.mark.path}"]`
    return {
      ...through(target, here),
      mark: { ...target.mark, drawn: `body:has(${here}[aria-current="page"]) ${target.mark.drawn}` },
    }
  }
  return [
    through(PLAN),
    tab(PLAN_LIST),
    tab(WHAT_IF),
    through(DAY_SHEET),
    through(CARS),
    through(carMap(of), `main a[href="${of.carPath}"]`),
    through(repair(of), `main a[href="${of.repairPath}"]`),
    through(DECISIONS),
    through(VARIANCE),
    through(REPORTS),
    through(WORKSHOP),
    tab(BAYS),
    tab(CALENDAR),
    tab(PLANNING),
    tab(TYPES),
    tab(CONTACTS),
    through(SHOP_FLOOR),
  ]
}
