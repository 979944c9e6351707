import type { HelpName, HelpTopic } from './help-names.ts'
import { CAR_SHEET_PAGES } from './car-sheet-pages.ts'
import { carPage, carsPage, ownerDecisionsPage, ownerReportsPage } from './car-pages.ts'
import { beginPage, cardPage, daySheetPage, repairPage, shopFloorPage, tabletsPage } from './floor-pages.ts'
import type { HelpPage } from './help-shapes.ts'
import { PLAN_SHEET_PAGES } from './plan-sheet-pages.ts'
import { planPage, variancePage, wereWeRightPage } from './plan-pages.ts'
import { keyboardPage } from './keyboard-page.ts'
import { sheetPage } from './sheet-page.ts'
import { WORKSHOP_SHEET_PAGES } from './workshop-sheet-pages.ts'
import { safetyPage, wordsPage, workshopPage } from './workshop-pages.ts'

const TOPIC_PAGES: Readonly<Record<HelpTopic, HelpPage>> = {
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
  sheet: sheetPage,
  keyboard: keyboardPage,
  safety: safetyPage,
  words: wordsPage,
}

type Below<Topic extends string, Sheet extends string> = Readonly<Record<`${Topic}/${Sheet}`, HelpPage>>

/** The pages of sheets by their names below the screen's. */
const below = <Topic extends string, Sheet extends string>(
  topic: Topic,
  pages: Readonly<Record<Sheet, HelpPage>>,
): Below<Topic, Sheet> =>
  Object.fromEntries(Object.entries(pages).map(([sheet, page]) => [`${topic}/${sheet}`, page])) as Below<
    Topic,
    Sheet
  >

export const HELP_PAGES: Readonly<Record<HelpName, HelpPage>> = {
  ...TOPIC_PAGES,
  ...below('car', CAR_SHEET_PAGES),
  ...below('plan', PLAN_SHEET_PAGES),
  ...below('workshop', WORKSHOP_SHEET_PAGES),
}
