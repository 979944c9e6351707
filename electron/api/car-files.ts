import type { Context } from 'hono'
import { z } from 'zod'
import { carIdSchema } from '../../domain/ids.ts'
import { refuse } from '../../domain/refusal.ts'
import { CAR_FILE_TYPE } from '../../domain/report/car-file-name.ts'
import type { ApiServices } from './api-services.ts'
import type { CarFileOrder } from './car-file-desk.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { savedAs } from './saved-as.ts'
import { procedure } from './trpc.ts'

const watchSchema = z.uuid('This file is not known; ask for it again.')
const ticked = z
  .enum(['1'])
  .optional()
  .transform((value) => value === '1')
const querySchema = z.strictObject({ watch: watchSchema, contacts: ticked, prices: ticked, hours: ticked })

/**
 * `GET /car-files/CAR.zip`, `CAR.panelcar` and `CAR.pdf`: the file of a car, or its book alone, for a signed-in manager. `?watch=UUID` is what
 * the screen follows it by; `contacts=1`, `prices=1` and `hours=1` tick what leaves besides.
 */
export async function serveCarFile(
  c: Context,
  file: { readonly carId: string; readonly as: CarFileOrder['as'] },
  services: ApiServices,
  asker: Asker,
): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const carId = carIdSchema.safeParse(file.carId)
  const query = querySchema.safeParse(c.req.query())
  if (!carId.success || !query.success) return refused(c, 404, noSuchFile)
  const { watch, ...choices } = query.data
  const made = await deps.carFiles.begin({ carId: carId.data, as: file.as, choices, watch })
  if (!made.ok) return refused(c, 422, made.refusal)
  return c.body(made.value.stream, 200, savedAs(made.value.name, TYPES[file.as]))
}

/** What a screen follows a file by that it asked for. */
export function createCarFileProcedures({ deps }: ApiServices) {
  const ofFile = z.strictObject({ watch: watchSchema })
  return {
    carFileProgress: procedure.input(ofFile).query(({ input }) => deps.carFiles.progress(input.watch)),
    stopCarFile: procedure.input(ofFile).mutation(({ input }): null => {
      deps.carFiles.stop(input.watch)
      return null
    }),
  }
}

const TYPES: Readonly<Record<CarFileOrder['as'], string>> = {
  zip: 'application/zip',
  panelcar: CAR_FILE_TYPE,
  pdf: 'application/pdf',
}

const { refusal: noSuchFile } = refuse(
  'unknown',
  'There is no such file of a car.',
  'Open it from the car’s own screen.',
)
