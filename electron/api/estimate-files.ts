import type { Context } from 'hono'
import { carIdSchema } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import { type EstimateLetter, estimateLetter } from '../../domain/report/estimate-letter.ts'
import { answerPdf } from './answer-pdf.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { estimateInput } from './estimate-procedures.ts'
import { refused } from './guard.ts'
import type { Asker } from './pairing.ts'
import { signedInManager } from './signed-in-manager.ts'

/** `GET /estimate/CAR.pdf`: the estimate of the car's current visit as a letter to its owner. */
export async function serveEstimate(
  c: Context,
  carId: string,
  { deps, sessions }: ApiServices,
  asker: Asker,
): Promise<Response> {
  const manager = signedInManager(deps.db, sessions, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const letter = findLetter(carId, deps)
  if (!letter.ok) return refused(c, 404, letter.refusal)
  const pdf = new Uint8Array(await deps.printEstimate(letter.value))
  return answerPdf(c, pdf, `Estimate ${letter.value.title}`, 'no-store')
}

function findLetter(text: string, deps: ApiDeps): Result<EstimateLetter> {
  const carId = carIdSchema.safeParse(text).data
  if (carId === undefined) return unknownCar
  const input = estimateInput(deps, carId)
  if (!input.ok) return input
  const letter = estimateLetter(input.value)
  return letter === null ? nothingEstimated : ok(letter)
}

const unknownCar = refuse('unknown', 'There is no such estimate.', 'Choose the car from the list of cars.')
const nothingEstimated = refuse(
  'not-now',
  'Nothing is estimated on this car yet, so there is nothing to print.',
  'Add a repair on its estimate sheet, then print it.',
)
