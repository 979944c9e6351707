import { z } from 'zod'

/** A time of day as a time field gives it, '16:30'. */
export const clockTimeSchema = z.string().regex(/^\d{2}:\d{2}$/, 'Give a time like 16:30.')
