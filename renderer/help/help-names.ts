import { CAR_SHEETS, type CarSheet } from '../parts/sheets/car-sheets.ts'
import { PLAN_SHEETS, type PlanSheetName } from '../parts/sheets/plan-sheets.ts'
import { WORKSHOP_SHEETS, type WorkshopSheet } from '../parts/sheets/workshop-sheets.ts'

/** The pages of help in the order of their list, each sheet's below that of its screen; the first is shown unless one is named. */
const TOPICS = [
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
  'sheet',
  'keyboard',
  'safety',
  'words',
] as const
export type HelpTopic = (typeof TOPICS)[number]
export type HelpName = HelpTopic | `car/${CarSheet}` | `plan/${PlanSheetName}` | `workshop/${WorkshopSheet}`

/** The pages of a screen's sheets, in the order of their tabs. */
export function sheetsOf(topic: HelpTopic): readonly HelpName[] {
  switch (topic) {
    case 'car':
      return CAR_SHEETS.map((sheet) => `car/${sheet}` as const)
    case 'plan':
      return PLAN_SHEETS.map((sheet) => `plan/${sheet}` as const)
    case 'workshop':
      return WORKSHOP_SHEETS.map((sheet) => `workshop/${sheet}` as const)
    default:
      return []
  }
}

export const HELP_TOPICS: readonly HelpTopic[] = TOPICS
export const HELP_NAMES: readonly HelpName[] = TOPICS.flatMap((topic) => [topic, ...sheetsOf(topic)])

/** The screen's page that a page lies below, or itself. */
export const topicOf = (name: HelpName): HelpTopic =>
  TOPICS.find((topic) => name === topic || name.startsWith(`${topic}/`)) ?? TOPICS[0]

const BY_PLACE: readonly (readonly [RegExp, HelpTopic])[] = [
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

/** A place in the program, as the router tells it. */
export interface HelpedPlace {
  readonly pathname: string
  readonly search: { readonly sheet?: string | undefined }
}

/** The page that explains the sheet that is shown there, or the screen if it has no sheets. */
export function helpFor({ pathname, search: { sheet } }: HelpedPlace): HelpName {
  const topic = BY_PLACE.find(([place]) => place.test(pathname))?.[1] ?? TOPICS[0]
  const sheets = sheetsOf(topic)
  return sheets.find((name) => name === `${topic}/${sheet}`) ?? sheets[0] ?? topic
}
