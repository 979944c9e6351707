import type { HelpName } from './help-names.ts'
import { carPage, carsPage, ownerDecisionsPage, ownerReportsPage } from './car-pages.ts'
import { beginPage, cardPage, daySheetPage, repairPage, shopFloorPage, tabletsPage } from './floor-pages.ts'
import type { HelpPage } from './help-shapes.ts'
import { planPage, variancePage, wereWeRightPage } from './plan-pages.ts'
import { keyboardPage } from './keyboard-page.ts'
import { safetyPage, wordsPage, workshopPage } from './workshop-pages.ts'

export const HELP_PAGES: Readonly<Record<HelpName, HelpPage>> = {
  begin: beginPage,
  'shop-floor': shopFloorPage,
  'day-sheet': daySheetPage,
  repair: repairPage,
  car: carPage,
  cars: carsPage,
  card: cardPage,
  plan: planPage,
  'owner-decisions': ownerDecisionsPage,
  'owner-reports': ownerReportsPage,
  variance: variancePage,
  'were-we-right': wereWeRightPage,
  workshop: workshopPage,
  tablets: tabletsPage,
  keyboard: keyboardPage,
  safety: safetyPage,
  words: wordsPage,
}
