import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readFinishedRepairs } from '../../db/finished-repairs.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import type { JudgedRepair } from '../../domain/estimate/judged-repair.ts'
import { BANDS_WHEN } from '../../domain/facts/agreement-facts.ts'
import { typeIdSchema } from '../../domain/ids.ts'
import { hoursProposalView } from '../../domain/views/hours-proposal-view.ts'
import { wereWeRightView } from '../../domain/views/were-we-right-view.ts'
import type { ApiServices } from './api-services.ts'
import { procedure } from './trpc.ts'

const ofType = z.strictObject({ typeId: typeIdSchema })
const ofJudged = z.strictObject({
  when: z.enum(BANDS_WHEN),
  /** So many of the last finished repairs; null for all. */
  last: z.int().min(1).max(10_000).nullable(),
})

/** What the workshop's finished repairs tell. */
export function createHistoryProcedures({ deps, sessions }: ApiServices) {
  const { db } = deps
  const repairName = ({ carId, repairId }: JudgedRepair): string => {
    const car = readCar(db, carId)
    const repair = car?.repairs.get(repairId)?.plan.name ?? 'A repair'
    return car === null ? repair : `${repair}; ${car.name}`
  }
  return {
    /** What finished repairs of a type propose for a new one; null where there are too few. */
    hoursProposal: procedure.input(ofType).query(({ input }) => {
      const type = readWorkshop(db).types.get(input.typeId)
      return type === undefined ? null : hoursProposalView(type, readFinishedRepairs(db))
    }),
    wereWeRight: procedure.input(ofJudged).query(({ input, ctx }) =>
      wereWeRightView({
        ...input,
        finished: readFinishedRepairs(db),
        workshop: readWorkshop(db),
        nameOf: contactBook(db).nameOf,
        by: sessions.person(ctx.asker.device.id),
        repairName,
      }),
    ),
  }
}
