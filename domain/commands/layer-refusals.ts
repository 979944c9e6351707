import type { CarState, LayerState, RepairState } from '../car.ts'
import type { LayerId, RepairId } from '../ids.ts'
import { ok, refuse, type Result } from '../refusal.ts'
import { layerMissing } from '../rules/order-holds.ts'
import { isDone } from '../rules/standing.ts'
import { joinWords } from '../text/words.ts'
import type { CommandPayload } from './command-shapes.ts'
import { findRepair, firstRefusal, refuseIf, type Refused } from './deciders.ts'

interface FoundLayer {
  readonly repair: RepairState
  readonly layer: LayerState
  readonly plan: RepairState['plan']['layers'][number]
}

/** A layer of a repair that still stands, with what its plan says of it. */
export const findLayer = (car: CarState, repairId: RepairId, layerId: LayerId): Result<FoundLayer> => {
  const found = findRepair(car, repairId)
  if (!found.ok) return found
  const layer = found.value.layers.get(layerId)
  const plan = found.value.plan.layers.find((each) => each.layerId === layerId)
  return layer && plan
    ? ok({ repair: found.value, layer, plan })
    : refuse('unknown', 'This layer is not known.', 'Choose a layer of the repair.')
}

/** Layers are graded until assessed is done and while they can be seen; lengths are mm. */
export const gradeRefusal = (
  { repair, layer, plan }: FoundLayer,
  payload: CommandPayload<'gradeLayer'>,
): Refused | null =>
  firstRefusal(
    refuseIf(
      isDone(repair, 'assessed'),
      'not-now',
      'assessed is done.',
      'Add a finding instead, or have assessed reopened.',
    ),
    refuseIf(
      layer.closedOver !== null,
      'not-now',
      `The ${plan.name} is closed over.`,
      'Reopen the gate that closed it.',
    ),
    refuseIf(
      payload.grade === 'not seen' && payload.judgedBy === '',
      'bad-input',
      'Say how a layer that was not seen was judged.',
      'Write for instance: by sound, by camera through the drain hole.',
    ),
    refuseIf(
      payload.remainingMm !== null && payload.remainingMm > plan.thicknessMm,
      'bad-input',
      `The ${plan.name} is ${plan.thicknessMm} mm thick; more cannot remain.`,
      'Measure again, or correct the thickness of the layer.',
    ),
  )

/** Refuses a mark that the layer is not ready for, or that came too late: it is closed over. */
export const markRefusal = (
  car: CarState,
  { repair, layer, plan }: FoundLayer,
  { mark }: CommandPayload<'markLayers'>,
): Refused | null => {
  if (layer.closedOver)
    return refuse('not-now', `The ${plan.name} is closed over.`, 'Reopen the gate that closed it.')
  switch (mark) {
    case 'repaired':
      return refuseIf(
        !isDone(repair, 'assessed') || layer.decision === null || layer.decision === 'keep',
        'not-now',
        `The ${plan.name} has no decision to repair it.`,
        'Grade it and pass assessed first.',
      )
    case 'coated':
      return refuseIf(
        !isDone(repair, 'assessed'),
        'not-now',
        'assessed is not done yet.',
        'Pass assessed first.',
      )
    case 'closed over':
      return closeOverRefusal(car, { repair, layer, plan })
  }
}

const closeOverRefusal = (car: CarState, { repair, layer, plan }: FoundLayer): Refused | null => {
  const layers = [...repair.layers.values()]
  const inner = layers.slice(0, layers.indexOf(layer)).find((each) => !each.closedOver)
  const missing = layerMissing(car, repair, layer)
  return firstRefusal(
    refuseIf(
      layer === layers.at(-1),
      'bad-input',
      `The ${plan.name} is the closing panel.`,
      'It is closed by passing welded.',
    ),
    refuseIf(
      inner !== undefined,
      'held',
      'A layer further in is still open.',
      'Close over the innermost layer first.',
    ),
    refuseIf(
      missing.length > 0,
      'held',
      `The ${plan.name} is not ${joinWords(missing)}.`,
      'No layer is closed over until it is finished, coated and photographed.',
    ),
  )
}
