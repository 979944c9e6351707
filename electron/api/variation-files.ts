import type { Context } from 'hono'
import { contactBook } from '../../db/contacts.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { carIdSchema, variationIdSchema } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { type VariationLetter, variationLetter } from '../../domain/report/variation-letter.ts'
import { answerJson } from './answer-json.ts'
import { answerPdf } from './answer-pdf.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'

/**
 * `GET /variations/CAR/VARIATION.pdf`: a variation as a letter to its payer, with its answer once there is one; `VARIATION.json`:
 * the letter as data.
 */
export async function serveVariation(
  c: Context,
  ids: { readonly carId: string; readonly variationId: string; readonly as: 'pdf' | 'json' },
  services: ApiServices,
  asker: Asker,
): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const letter = findLetter(ids, deps)
  if (!letter.ok) return refused(c, 404, letter.refusal)
  const name = `${letter.value.car} ${letter.value.title}`.replaceAll(/[,:]/g, '')
  if (ids.as === 'json') return answerJson(c, letter.value, name)
  return answerPdf(c, new Uint8Array(await deps.printVariation(letter.value)), name, 'no-store')
}

function findLetter(
  ids: { readonly carId: string; readonly variationId: string },
  { db, now }: ApiDeps,
): Result<VariationLetter> {
  const carId = carIdSchema.safeParse(ids.carId).data
  const variationId = variationIdSchema.safeParse(ids.variationId).data
  const car = carId === undefined ? null : readCar(db, carId)
  const variation = variationId === undefined ? undefined : car?.variations.get(variationId)
  if (car === null || variation === undefined) return unknownVariation
  const { nameOf } = contactBook(db)
  return ok(variationLetter({ car, variation, now: now(), workshop: readWorkshop(db), nameOf }))
}

const unknownVariation = refuse(
  'unknown',
  'There is no such variation.',
  'Choose it from the owner decisions.',
)
