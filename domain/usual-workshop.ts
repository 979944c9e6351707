import type { PayloadOf } from './facts.ts'
import type { ReportSettings } from './facts/reports-facts.ts'
import type { FixtureCounts, Planning } from './facts/plan-facts.ts'
import type { WorkingWeek } from './facts/shapes.ts'
import type { WorkshopSettings } from './facts/workshop-facts.ts'
import { bayIdSchema } from './ids.ts'

const usualDay = [
  { from: '08:00', to: '12:30' },
  { from: '13:00', to: '16:30' },
]

/** Monday to Friday, 40 hours: where a workshop starts before it has set its own. */
export const usualWeek: WorkingWeek = [usualDay, usualDay, usualDay, usualDay, usualDay, [], []]

/**
 * Limits a workshop starts with. Fire watch 60 minutes, never under 30; steel 3 degrees C above the dew point and
 * humidity up to 85 % as in ISO 8502-4 practice; datum points 3 mm, apertures 2 mm and gaps of 4 mm: common practice.
 */
export const usualSettings: WorkshopSettings = {
  watchMinutes: 60,
  conditions: { minMarginC: 3, maxHumidityPercent: 85, minAirC: null, maxAirC: null },
  gapNominalMm: 4,
  gapToleranceMm: 1,
  flushToleranceMm: 1,
  datumLimitMm: 3,
  apertureLimitMm: 2,
  figuresByPerson: false,
}

/** Two people roll a shell to another bay in half an hour; an owner answers within a week: common practice, no source. */
export const usualPlanning: Planning = {
  moveMinutes: 30,
  movePeople: 2,
  decisionDays: 7,
  frozenDays: 2,
  takeByItself: false,
}

/** Nothing by itself until the manager says when. */
export const usualReports: ReportSettings = {
  weekly: null,
  dates: 'range',
  names: false,
  language: 'en',
}

/** Not limited until the workshop has counted them. */
export const usualFixtures: FixtureCounts = { jig: null, rotisserie: null, dolly: null }

/** What the gates of the starting catalogue ask for, and the tasks around them. */
export const usualSkills = ['sheet metal', 'welding', 'fitting', 'preparation', 'painting'] as const

const bay = (
  id: string,
  name: string,
  kinds: string[],
  [x, y, width, height]: readonly [number, number, number, number],
): PayloadOf<'bayAdded'> => ({
  bayId: bayIdSchema.parse(id),
  name,
  kinds,
  floor: { x, y, width, height },
})

/**
 * A hall of 23.4 by 12.2 m to start from: five bays of 4.2 by 6 m along the back wall, the booth and the yard on
 * either side of the doors. In tenths of a metre: x, y, width, height.
 */
export const usualBays: readonly PayloadOf<'bayAdded'>[] = [
  bay('bay-1-metalwork', 'Bay 1', ['metalwork'], [4, 0, 42, 60]),
  bay('bay-2-metalwork', 'Bay 2', ['metalwork'], [50, 0, 42, 60]),
  bay('bay-3-jig', 'Bay 3', ['jig', 'metalwork'], [96, 0, 42, 60]),
  bay('bay-4-lift', 'Bay 4', ['lift', 'metalwork'], [142, 0, 42, 60]),
  bay('bay-5-preparation', 'Bay 5', ['preparation'], [188, 0, 42, 60]),
  bay('bay-6-booth', 'Spray booth', ['booth', 'preparation'], [160, 72, 70, 46]),
  bay('bay-7-yard', 'Yard and store', ['storage'], [4, 72, 96, 46]),
]
