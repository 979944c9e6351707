import { fact } from '../facts.ts'
import { PART_FOLLOWS } from '../facts/work-facts.ts'
import { refuse } from '../refusal.ts'
import { edgeProblems } from '../rules/asks.ts'
import { membersNotReady } from '../rules/fit-holds.ts'
import { isDone } from '../rules/standing.ts'
import { joinWords } from '../text/words.ts'
import type { CommandPayload } from './command-shapes.ts'
import {
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownRepairs,
  type CarContext,
  type Decider,
  type Refused,
} from './deciders.ts'
import { findLayer, gradeRefusal, markRefusal } from './layer-refusals.ts'

type EvidenceKind =
  | 'gradeOutside'
  | 'gradeLayer'
  | 'markLayers'
  | 'addFinding'
  | 'readConditions'
  | 'checkDrains'
  | 'countWelds'
  | 'recordFitUp'
  | 'prepareSurface'
  | 'needPart'
  | 'movePart'

export const evidenceDeciders: { readonly [K in EvidenceKind]: Decider<K> } = {
  gradeOutside: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      refuseIf(
        isDone(found.value, 'opened'),
        'not-now',
        `${found.value.plan.name} is opened; what was seen from outside before stands.`,
        'Grade its layers instead.',
      ) ?? record(fact('outsideGraded', payload))
    )
  }),

  gradeLayer: onCar((payload, { car }) => {
    const found = findLayer(car, payload.repairId, payload.layerId)
    if (!found.ok) return found
    return gradeRefusal(found.value, payload) ?? record(fact('layerGraded', payload))
  }),

  markLayers: onCar((payload, { car }) => {
    for (const layerId of payload.layerIds) {
      const found = findLayer(car, payload.repairId, layerId)
      if (!found.ok) return found
      const refused = markRefusal(car, found.value, payload)
      if (refused) return refused
    }
    return record(fact('layersMarked', payload))
  }),

  addFinding: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      firstRefusal(
        refuseIf(
          car.findings.has(payload.findingId),
          'already',
          'This finding is known already.',
          'Nothing to do.',
        ),
        refuseIf(
          payload.layerId !== null && !found.value.layers.has(payload.layerId),
          'unknown',
          'This layer is not known.',
          'Choose a layer of the repair.',
        ),
        refuseIf(
          payload.attachments.some((id) => !car.attachments.has(id)),
          'photo',
          'A photo of this finding has not arrived.',
          'Send the photo first.',
        ),
      ) ?? record(fact('findingAdded', payload))
    )
  }),

  readConditions: onCar(
    (payload, { car }) => unknownRepairs(car, payload.repairIds) ?? record(fact('conditionsRead', payload)),
  ),
  checkDrains: onCar(
    (payload, { car }) => unknownRepairs(car, payload.repairIds) ?? record(fact('drainsChecked', payload)),
  ),

  countWelds: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    const joints = new Set(found.value.plan.welds.map((joint) => joint.jointId))
    return (
      refuseIf(
        payload.welds.some((weld) => !joints.has(weld.jointId)),
        'unknown',
        'A joint is not in the weld plan.',
        'Add it to the weld plan of the repair first.',
      ) ?? record(fact('weldsCounted', payload))
    )
  }),

  recordFitUp: onCar(
    (payload, context) => fitUpRefusal(payload, context) ?? record(fact('fitUpRecorded', payload)),
  ),

  prepareSurface: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    const photo = car.attachments.get(payload.attachmentId)
    return (
      refuseIf(
        !photo?.serves.some(
          (each) => each.what === 'gate' && each.repairId === payload.repairId && each.shows === 'prepared',
        ),
        'photo',
        'The prepared surface needs its photo.',
        "Attach a photo that shows 'prepared' on this repair first.",
      ) ?? record(fact('surfacePrepared', payload))
    )
  }),

  needPart: onCar((payload, { car }) => {
    const found = findRepair(car, payload.repairId)
    if (!found.ok) return found
    return (
      firstRefusal(
        refuseIf(car.parts.has(payload.partId), 'already', 'This part is known already.', 'Nothing to do.'),
        refuseIf(
          isDone(found.value, payload.gate),
          'not-now',
          `${payload.gate} is done.`,
          'Choose a gate that is still to come.',
        ),
      ) ?? record(fact('partNeeded', payload))
    )
  }),

  movePart: onCar((payload, { car }) => {
    const part = car.parts.get(payload.partId)
    if (!part) return refuse('unknown', 'This part is not known.', 'Reload the repair.')
    return (
      firstRefusal(
        refuseIf(
          !PART_FOLLOWS[part.state].includes(payload.state),
          'not-now',
          `A part that is ${part.state} cannot become ${payload.state}.`,
          `It may become ${PART_FOLLOWS[part.state].join(' or ')}.`,
        ),
        refuseIf(
          payload.state === 'rejected' && payload.reason === '',
          'bad-input',
          'Say why the part is rejected.',
          'Give the reason.',
        ),
      ) ?? record(fact('partMoved', payload))
    )
  }),
}

const fitUpRefusal = (payload: CommandPayload<'recordFitUp'>, { car }: CarContext): Refused | null => {
  const group = car.fitGroups.get(payload.groupId)
  if (!group) return refuse('unknown', 'This fit group is not known.', 'Reload the car.')
  const { edges, name } = group.plan
  const known = new Set(edges.map((edge) => edge.edgeId))
  const waiting = payload.kind === 'full' ? membersNotReady(car, group) : []
  const problems = payload.good && payload.kind !== 'dry' ? edgeProblems(edges, payload) : []
  return firstRefusal(
    refuseIf(
      payload.readings.some((reading) => !known.has(reading.edgeId)),
      'unknown',
      'An edge is not one of this fit group.',
      'Reload the car.',
    ),
    refuseIf(
      waiting.length > 0,
      'held',
      `The ${name} is offered up as one: ${joinWords(waiting.map((each) => `${each.repair.plan.name} ${each.why}`))}.`,
      'Record it as a dry fit, or finish those first.',
    ),
    refuseIf(
      problems.length > 0,
      'bad-input',
      `This fit-up cannot be good: ${joinWords(problems)}.`,
      'Record it as not good and correct the fit, or have the manager change the tolerance.',
    ),
  )
}
