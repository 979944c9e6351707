import { z } from 'zod'

/** First import of the page: zod looks for `new Function` when its first schema is made, and the page's policy forbids it. */
z.config({ jitless: true })
