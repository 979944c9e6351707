import type { Context } from 'hono'
import { z } from 'zod'
import { carFacts } from '../../domain/facts/car-facts.ts'
import { commandIdSchema } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { ApiServices } from './api-services.ts'
import type { BroughtInCar, CameFile } from './bring-in-desk.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'
import { readToEnd, uploadOf } from './read-to-end.ts'
import { managersProcedure, procedure } from './trpc.ts'

export type BringInAnswer =
  | ({ readonly ok: true } & BroughtInCar)
  | { readonly ok: false; readonly refusal: Refusal }

const orderSchema = z.strictObject({
  fileId: z.uuid('This file is not known; choose it again.'),
  commandId: commandIdSchema,
  /** Another than the car has, where that one is taken here. */
  shellNumber: carFacts.carAdded.shape.shellNumber.nullable(),
})
const fileSchema = orderSchema.pick({ fileId: true })

/** Cars that come with their file from another workshop; the file itself comes to {@link receiveCar}. */
export function createBringInProcedures(services: ApiServices) {
  const { deps, revisions } = services
  return {
    bringInCar: managersProcedure
      .input(orderSchema)
      .mutation(async ({ input, ctx }): Promise<BringInAnswer> => {
        const brought = await deps.bringIn.bringIn({ ...input, by: ctx.by, device: ctx.asker.device.id })
        if (!brought.ok) return brought
        revisions.announce(true)
        return { ok: true, ...brought.value }
      }),
    /** How far it is; null for a file that is not kept. */
    bringInProgress: procedure.input(fileSchema).query(({ input }) => deps.bringIn.progress(input.fileId)),
    dropCameFile: procedure.input(fileSchema).mutation(async ({ input }): Promise<null> => {
      await deps.bringIn.drop(input.fileId)
      return null
    }),
  }
}

/** `PUT /came-files` takes the file of a car as it is, verifies it and answers what is in it. */
export async function receiveCar(c: Context, services: ApiServices, asker: Asker): Promise<Response> {
  const { deps } = services
  const { body } = c.req.raw
  const manager = signedInManager(services, asker)
  const came = manager.ok ? await deps.bringIn.receive(uploadOf(body)) : manager
  if (came.ok) return c.json(came.value satisfies CameFile)
  await readToEnd(body, MOST_DROPPED_BYTES)
  return refused(c, manager.ok ? 422 : 403, came.refusal)
}

/** A whole file of a car: a manager may send it over the network, too, and is told why it was refused. */
const MOST_DROPPED_BYTES = 8 * 1024 ** 3
