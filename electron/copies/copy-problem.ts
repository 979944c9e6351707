import { DatabaseProblem, isSqliteError, openingProblem } from '../../db/database-problem.ts'
import { refuse, type Refusal } from '../../domain/refusal.ts'
import { refusalOf } from '../bag/bag-problem.ts'

const SEE_THE_DISK = 'Check that its disk is attached and has room. Earlier copies are as they were.'

/**
 * What people are told of an error of the disk, of SQLite or of the copy itself.
 *
 * @param path names what was being opened
 * @throws the error itself where it is a defect
 */
export function copyRefusal(error: unknown, path: string): Refusal {
  if (error instanceof DatabaseProblem || isSqliteError(error))
    return refuse('storage', openingProblem(error, path).message, SEE_THE_DISK).refusal
  return refusalOf(error)
}
