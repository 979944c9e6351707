import { storageRefusal } from '../../db/database-problem.ts'
import { isSystemError } from '../../db/system-error.ts'
import { diskProblem, problemToRefusal } from '../../db/photos/photo-problem.ts'
import type { Refusal } from '../../domain/refusal.ts'

/** What people are told when the disk fails under a request that has no words of its own for it; null for a defect. */
export function diskRefusal(error: unknown): Refusal | null {
  return isSystemError(error) ? problemToRefusal(diskProblem(error)) : storageRefusal(error)
}
