import { getTableName } from 'drizzle-orm'
import { databasePath } from './data-paths.ts'
import type { Database } from './database.ts'
import { inTransaction } from './handle.ts'
import { lastLine } from './chains.ts'
import { indexSearched } from './searched-rows.ts'
import {
  attachment,
  booking,
  carTable,
  commandAnswer,
  contact,
  finishedRepair,
  journal,
  keptPlan,
  keptPlanCar,
  payload,
  photo,
  plannedAmount,
  preparedReport,
  report,
  reportDraft,
  searched,
  setting,
  timeEntry,
  varianceDay,
  varianceSum,
  varianceVisit,
} from './schema.ts'

/**
 * Takes everything of a database that was made in another folder by this same program over into the host's own, in one
 * transaction. Devices, codes and who is signed in stay as they are here.
 *
 * @param dataDir the other folder, which nobody has open
 * @returns false when there is a workshop here already; nothing was changed then
 */
export function adoptWorkshop({ writer, cache }: Database, dataDir: string): boolean {
  const { sqlite } = writer
  sqlite.prepare('ATTACH ? AS came').run(databasePath(dataDir))
  try {
    return inTransaction(writer, () => {
      if (lastLine(writer) !== undefined) return false
      // Both were made by the same migrations, so that their columns stand in the same order.
      for (const table of ADOPTED.map((each) => getTableName(each)))
        sqlite.exec(`INSERT OR REPLACE INTO main.${table} SELECT * FROM came.${table}`)
      indexSearched(writer)
      return true
    })
  } finally {
    sqlite.exec('DETACH came')
    cache.cars.clear()
    cache.workshop = null
    cache.finished = null
  }
}

/** What names others stands after them. */
const ADOPTED = [
  journal,
  payload,
  commandAnswer,
  contact,
  photo,
  keptPlan,
  keptPlanCar,
  reportDraft,
  preparedReport,
  setting,
  carTable,
  booking,
  timeEntry,
  attachment,
  report,
  finishedRepair,
  searched,
  plannedAmount,
  varianceSum,
  varianceVisit,
  varianceDay,
]
