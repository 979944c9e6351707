import type { Context } from 'hono'
import { carIdSchema } from '../../domain/ids.ts'
import { refuse, type Result } from '../../domain/refusal.ts'
import { estimateLetter } from '../../domain/report/estimate-letter.ts'
import { type EstimateInput, estimateView } from '../../domain/views/estimate-view.ts'
import { answerJson } from './answer-json.ts'
import { answerPdf } from './answer-pdf.ts'
import type { ApiServices } from './api-services.ts'
import type { ApiDeps } from './deps.ts'
import { estimateInput } from './estimate-procedures.ts'
import { refused } from './guard.ts'
import { signedInManager } from './manager-here.ts'
import type { Asker } from './pairing.ts'

/**
 * `GET /estimate/CAR.pdf`: the estimate of the car's current visit as a letter to its owner; `CAR.json`: the letter as data, with
 * the figures in it as numbers.
 */
export async function serveEstimate(
  c: Context,
  { carId, as }: { readonly carId: string; readonly as: 'pdf' | 'json' },
  services: ApiServices,
  asker: Asker,
): Promise<Response> {
  const { deps } = services
  const manager = signedInManager(services, asker)
  if (!manager.ok) return refused(c, 403, manager.refusal)
  const input = findInput(carId, deps)
  if (!input.ok) return refused(c, 404, input.refusal)
  const letter = estimateLetter(input.value)
  if (letter === null) return refused(c, 404, nothingEstimated)
  const name = `Estimate ${letter.title}`
  if (as === 'json') return answerJson(c, { letter, figures: estimateView(input.value) }, name)
  return answerPdf(c, new Uint8Array(await deps.printEstimate(letter)), name, 'no-store')
}

function findInput(text: string, deps: ApiDeps): Result<EstimateInput> {
  const carId = carIdSchema.safeParse(text).data
  return carId === undefined ? unknownCar : estimateInput(deps, carId)
}

const unknownCar = refuse('unknown', 'There is no such estimate.', 'Choose the car from the list of cars.')
const { refusal: nothingEstimated } = refuse(
  'not-now',
  'Nothing is estimated on this car yet, so there is nothing to print.',
  'Add a repair on its estimate sheet, then print it.',
)
