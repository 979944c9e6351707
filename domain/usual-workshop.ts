import type { WorkingWeek } from './facts/shapes.ts'
import type { WorkshopSettings } from './facts/workshop-facts.ts'

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
