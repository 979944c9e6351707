import type { CarState, RepairState } from '../car.ts'
import { closingHolds, uncoverHolds } from '../rules/order-holds.ts'
import { isDone, isFinished, openAway } from '../rules/standing.ts'
import type { CommandPayload } from './command-shapes.ts'
import { firstRefusal, refuseIf, type CarContext, type Refused } from './deciders.ts'

/** Closing as found is a closing like any other: nothing unfinished behind it, its covers open, each layer photographed. */
export const closeRefusal = (
  repair: RepairState,
  payload: CommandPayload<'closeAsFound'>,
  { car }: CarContext,
): Refused | null => {
  const { name, loadBearing } = repair.plan
  const variation = payload.variationId ? car.variations.get(payload.variationId) : undefined
  const behind = closingHolds(car, repair).filter((each) => each.otherRepair !== null)
  const above = uncoverHolds(car, repair)
  const unseen = layersWithoutPhoto(car, repair, payload)
  return firstRefusal(
    refuseIf(isFinished(repair), 'already', `${name} is finished already.`, 'Nothing to do.'),
    refuseIf(openAway(car) !== null, 'not-now', 'The shell is away.', 'Close it once the shell is back.'),
    refuseIf(
      payload.variationId !== null && variation?.status !== 'declined' && variation?.status !== 'stopped',
      'not-now',
      'This variation was not declined.',
      'Close as found only what its payer declined.',
    ),
    refuseIf(
      behind.length > 0,
      'held',
      behind.map((each) => each.words).join(' '),
      'Finish or close what lies behind it first.',
    ),
    refuseIf(
      above.length > 0,
      'held',
      above.map((each) => each.words).join(' '),
      'Open what covers it first.',
    ),
    refuseIf(
      unseen.length > 0,
      'held',
      `There is no photo as left of: ${unseen.join(', ')}.`,
      'Photograph each layer as it is left.',
    ),
    refuseIf(
      loadBearing && !payload.cautionShown,
      'not-now',
      'This is load-bearing metal.',
      'Read the caution and sign it; the workshop may also refuse to close it.',
    ),
  )
}

/** Each layer that can be seen needs a photo as left among those named. */
const layersWithoutPhoto = (
  car: CarState,
  repair: RepairState,
  payload: CommandPayload<'closeAsFound'>,
): readonly string[] => {
  const named = payload.attachments.flatMap((id) => car.attachments.get(id) ?? [])
  return repair.plan.layers
    .filter((layer) => isDone(repair, 'opened') && repair.layers.get(layer.layerId)?.grade !== 'not seen')
    .filter(
      (layer) =>
        !named.some(({ serves }) =>
          serves.some(
            (each) =>
              each.what === 'gate' &&
              each.repairId === repair.id &&
              each.shows === 'as left' &&
              each.layerId === layer.layerId,
          ),
        ),
    )
    .map((layer) => layer.name)
}
