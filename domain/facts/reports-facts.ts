import { z } from 'zod'
import { LANGUAGE_CODES } from '../language/language-codes.ts'
import { DATES_SHOWN } from '../report/report-choices.ts'
import { timeOfDaySchema } from './shapes.ts'

/** When the reports of all cars are prepared by themselves, on the workshop's clock. */
export const weeklyReportsSchema = z.strictObject({
  /** 1 Monday to 7 Sunday. */
  weekday: z.int().min(1, 'Choose a day of the week.').max(7, 'Choose a day of the week.'),
  time: timeOfDaySchema('16:00'),
})

export const reportSettingsSchema = z.strictObject({
  /** Null prepares nothing by itself. */
  weekly: weeklyReportsSchema.nullable(),
  /** What a report starts with; the manager may choose otherwise in each. */
  dates: z.enum(DATES_SHOWN),
  names: z.boolean(),
  language: z.enum(LANGUAGE_CODES),
})

export const workshopReportFacts = {
  reportsSet: reportSettingsSchema,
}

export type WeeklyReports = z.infer<typeof weeklyReportsSchema>
export type ReportSettings = z.infer<typeof reportSettingsSchema>
