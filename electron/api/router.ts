import { z } from 'zod'
import { createActProcedures } from './act-procedures.ts'
import type { ApiServices } from './api-services.ts'
import { createCarFileProcedures } from './car-files.ts'
import { createCheckProcedures } from './check-procedures.ts'
import { createCardProcedures } from './card-procedures.ts'
import { createBringInProcedures } from './bring-in-procedures.ts'
import { createContactProcedures } from './contact-procedures.ts'
import { createCopiesProcedures } from './copies-procedures.ts'
import { createDeviceProcedures } from './device-procedures.ts'
import { createDemoProcedures } from './demo-procedures.ts'
import { createEstimateProcedures } from './estimate-procedures.ts'
import { createFindProcedures } from './find-procedures.ts'
import { createHistoryProcedures } from './history-procedures.ts'
import { createHoursProcedures } from './hours-procedures.ts'
import { createImportProcedures } from './import-procedures.ts'
import { createMoneyProcedures } from './money-procedures.ts'
import { createNetworkProcedures } from './network-procedures.ts'
import { createPlanProcedures } from './plan-procedures.ts'
import { createReportProcedures } from './report-procedures.ts'
import type { ReportDesk } from './report-desk.ts'
import type { PairingCodes } from './pairing-code.ts'
import { procedure, router } from './trpc.ts'
import { createUpdateProcedures } from './update-procedures.ts'
import { createVarianceProcedures } from './variance-procedures.ts'
import { createVariationProcedures } from './variation-procedures.ts'
import { createViewProcedures } from './view-procedures.ts'
import { createWholeProcedures } from './whole-procedures.ts'

/** Every call of the typed api; plain HTTP (photos, reports, screens) stands in app.ts. */
export function createRouter(services: ApiServices, desk: ReportDesk, codes: PairingCodes) {
  const { revisions, deviceEnds } = services
  return router({
    ...createViewProcedures(services),
    ...createActProcedures(services),
    ...createFindProcedures(services),
    ...createImportProcedures(services),
    ...createBringInProcedures(services),
    ...createCarFileProcedures(services),
    ...createCardProcedures(services),
    ...createReportProcedures(services, desk),
    ...createPlanProcedures(services),
    ...createVariationProcedures(services),
    ...createEstimateProcedures(services),
    ...createHoursProcedures(services),
    ...createMoneyProcedures(services),
    ...createVarianceProcedures(services),
    ...createHistoryProcedures(services),
    ...createDemoProcedures(services),
    ...createWholeProcedures(services),
    ...createCheckProcedures(services),
    ...createCopiesProcedures(services),
    ...createContactProcedures(services),
    ...createDeviceProcedures(services, codes),
    ...createNetworkProcedures(services),
    ...createUpdateProcedures(services),
    /** Follows what changes; from the revision that a screen has, or from now on. */
    revisions: procedure.input(fromRevisionSchema).subscription(({ input, ctx, signal }) => {
      const since = input?.lastEventId ?? null
      const ends = AbortSignal.any([signal ?? never, deviceEnds.signalOf(ctx.asker.device.id)])
      return revisions.follow(since === null ? revisions.latest() : Number(since), ends)
    }),
  })
}

export type AppRouter = ReturnType<typeof createRouter>

const fromRevisionSchema = z
  .strictObject({
    lastEventId: z
      .string()
      .regex(/^\d{1,15}$/)
      .nullish(),
  })
  .optional()

const never = new AbortController().signal
