import {
  createRootRoute,
  createRoute,
  createRouter,
  lazyRouteComponent,
  redirect,
  type ErrorComponentProps,
} from '@tanstack/react-router'
import { z } from 'zod'
import { AppShell } from './app-shell.tsx'
import { CAR_SHEETS } from './parts/sheets/car-sheets.ts'
import { followMenu } from './menu-place.ts'
import { HELP_NAMES } from './help/help-names.ts'
import { ErrorState } from './parts/frame/loaded.tsx'
import { NotFound } from './parts/frame/not-found.tsx'
import { PLAN_LISTS, PLAN_SHEETS } from './parts/sheets/plan-sheets.ts'
import { JUDGED_LAST, JUDGED_WHEN, VARIANCE_DRILLS } from './parts/sheets/variance-sheets.ts'
import { WORKSHOP_SHEETS } from './parts/sheets/workshop-sheets.ts'

const carSearch = z.object({
  sheet: z.enum(CAR_SHEETS).optional().catch(undefined),
  repair: z.string().optional().catch(undefined),
  /** The photo that is shown large. */
  photo: z.string().optional().catch(undefined),
  /** The line of the record that is looked for. */
  line: z.int().optional().catch(undefined),
})
const repairSearch = carSearch.pick({ photo: true })
const carsSearch = z.object({ add: z.boolean().optional().catch(undefined) })
/** The only car that the photos are of. */
const cardSearch = z.object({ car: z.string().optional().catch(undefined) })
const planSearch = z.object({
  sheet: z.enum(PLAN_SHEETS).optional().catch(undefined),
  by: z.enum(PLAN_LISTS).optional().catch(undefined),
})
const daySheetSearch = z.object({ person: z.string().optional().catch(undefined) })
const varianceSearch = z.object({
  by: z.enum(VARIANCE_DRILLS).optional().catch(undefined),
  /** The line that is looked into, and the visit of it. */
  key: z.string().optional().catch(undefined),
  visit: z.string().optional().catch(undefined),
  as: z.literal('table').optional().catch(undefined),
})
const wereWeRightSearch = z.object({
  when: z.enum(JUDGED_WHEN).optional().catch(undefined),
  last: z.enum(JUDGED_LAST).optional().catch(undefined),
})
const reportsSearch = z.object({
  week: z.string().optional().catch(undefined),
  visit: z.string().optional().catch(undefined),
})
const helpSearch = z.object({ of: z.enum(HELP_NAMES).optional().catch(undefined) })
const workshopSearch = z.object({
  sheet: z.enum(WORKSHOP_SHEETS).optional().catch(undefined),
  type: z.string().optional().catch(undefined),
})

const root = createRootRoute({
  beforeLoad: ({ location }) => followMenu(location.hash, location),
  component: AppShell,
  notFoundComponent: NotFound,
})

const index = createRoute({
  getParentRoute: () => root,
  path: '/',
  beforeLoad: () => {
    throw redirect({ to: '/shop-floor' })
  },
})
const firstRun = createRoute({
  getParentRoute: () => root,
  path: '/first-run',
  component: lazyRouteComponent(() => import('./first-run/first-run-screen.tsx'), 'FirstRunScreen'),
})
const shopFloor = createRoute({
  getParentRoute: () => root,
  path: '/shop-floor',
  component: lazyRouteComponent(() => import('./shop-floor/shop-floor-screen.tsx'), 'ShopFloorScreen'),
})
const plan = createRoute({
  getParentRoute: () => root,
  path: '/plan',
  validateSearch: planSearch,
  component: lazyRouteComponent(() => import('./plan/plan-screen.tsx'), 'PlanScreen'),
})
const cars = createRoute({
  getParentRoute: () => root,
  path: '/cars',
  validateSearch: carsSearch,
  component: lazyRouteComponent(() => import('./cars/cars-screen.tsx'), 'CarsScreen'),
})
const car = createRoute({
  getParentRoute: () => root,
  path: '/cars/$carId',
  validateSearch: carSearch,
  component: lazyRouteComponent(() => import('./car/car-screen.tsx'), 'CarScreen'),
})
const card = createRoute({
  getParentRoute: () => root,
  path: '/card',
  validateSearch: cardSearch,
  component: lazyRouteComponent(() => import('./card/card-screen.tsx'), 'CardScreen'),
})
const repair = createRoute({
  getParentRoute: () => root,
  path: '/cars/$carId/repairs/$repairId',
  validateSearch: repairSearch,
  component: lazyRouteComponent(() => import('./repair/repair-screen.tsx'), 'RepairScreen'),
})
const daySheet = createRoute({
  getParentRoute: () => root,
  path: '/day-sheet',
  validateSearch: daySheetSearch,
  component: lazyRouteComponent(() => import('./day-sheet/day-sheet-screen.tsx'), 'DaySheetScreen'),
})
const ownerDecisions = createRoute({
  getParentRoute: () => root,
  path: '/owner-decisions',
  component: lazyRouteComponent(
    () => import('./owner-decisions/owner-decisions-screen.tsx'),
    'OwnerDecisionsScreen',
  ),
})
const variance = createRoute({
  getParentRoute: () => root,
  path: '/variance',
  validateSearch: varianceSearch,
  component: lazyRouteComponent(() => import('./variance/variance-screen.tsx'), 'VarianceScreen'),
})
const wereWeRight = createRoute({
  getParentRoute: () => root,
  path: '/variance/were-we-right',
  validateSearch: wereWeRightSearch,
  component: lazyRouteComponent(() => import('./variance/were-we-right-screen.tsx'), 'WereWeRightScreen'),
})
const ownerReports = createRoute({
  getParentRoute: () => root,
  path: '/owner-reports',
  validateSearch: reportsSearch,
  component: lazyRouteComponent(
    () => import('./owner-reports/owner-reports-screen.tsx'),
    'OwnerReportsScreen',
  ),
})
const workshop = createRoute({
  getParentRoute: () => root,
  path: '/workshop',
  validateSearch: workshopSearch,
  component: lazyRouteComponent(() => import('./workshop/workshop-screen.tsx'), 'WorkshopScreen'),
})

const help = createRoute({
  getParentRoute: () => root,
  path: '/help',
  validateSearch: helpSearch,
  component: lazyRouteComponent(() => import('./help/help-screen.tsx'), 'HelpScreen'),
})

export const router = createRouter({
  routeTree: root.addChildren([
    index,
    firstRun,
    shopFloor,
    plan,
    cars,
    car,
    card,
    repair,
    daySheet,
    ownerDecisions,
    variance,
    wereWeRight,
    ownerReports,
    workshop,
    help,
  ]),
  defaultPreload: 'intent',
  defaultErrorComponent: BrokenScreen,
  scrollRestoration: true,
})

function BrokenScreen({ error }: ErrorComponentProps) {
  return <ErrorState error={error} onRetry={() => void router.invalidate()} />
}

declare module '@tanstack/react-router' {
  interface Register {
    router: typeof router
  }
}
