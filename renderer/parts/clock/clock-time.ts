import { timeOfDaySchema } from '../../../domain/facts/shapes.ts'

/** A time of day as a time field gives it, '16:30'. */
export const clockTimeSchema = timeOfDaySchema('16:30')
