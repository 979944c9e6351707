import { z } from 'zod'

/** A folder's path, as a person types it. */
export const folderSchema = z.string().trim().min(1, 'Give a folder.').max(1_000, 'Give a shorter path.')
