import type { RepairState } from '../../domain/car.ts'
import type { Grade } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import { findingIdSchema, type AttachmentId, type LayerId, type RepairId } from '../../domain/ids.ts'
import { demoRepairOf, repairOf, send, takePhoto, unmetAsks, type Act } from './act.ts'
import { usualDecision } from './demo-car.ts'
import type { DemoPhotoKind } from './photos/scenes.ts'

/** Grades every layer as the demo says, or as rust usually goes. */
export function gradeLayers(act: Act, repairId: RepairId): void {
  const { layers } = repairOf(act, repairId).plan
  const found = demoRepairOf(act.demo, repairId).grades
  layers.forEach(({ layerId, thicknessMm }, index) => {
    const grade = found?.[index] ?? usualGrade(act, (index + 1) / layers.length)
    send(act, 'gradeLayer', {
      repairId,
      layerId,
      grade,
      judgedBy: grade === 'not seen' ? 'by camera through the drain hole' : '',
      remainingMm: grade === 'pitted' ? Math.round(thicknessMm * 6) / 10 : null,
      decision: usualDecision[grade],
    })
  })
}

const SCALE: readonly Grade[] = ['sound', 'surface', 'pitted', 'holed', 'gone']

/** Worse further out, where the water comes from, with some luck either way; `outwards` is above 0 and up to 1. */
function usualGrade({ stage }: Act, outwards: number): Grade {
  const worse = Math.round(1 + 2.4 * outwards + stage.random.between(-1, 1))
  return SCALE[Math.min(SCALE.length - 1, Math.max(0, worse))] ?? 'pitted'
}

/** The photos of layers that the gate asks for, several layers on each; bad ones found at assessed are written down. */
export function takeLayerPhotos(act: Act, repairId: RepairId, gate: Gate): void {
  const wanted = new Set(
    unmetAsks(act, repairId, gate).flatMap((ask) => (ask.kind === 'layer photo' ? [ask.layerId] : [])),
  )
  const layers = repairOf(act, repairId).plan.layers.filter(({ layerId }) => wanted.has(layerId))
  const perPhoto = gate === 'assessed' && act.demo.finished === undefined ? 2 : 3
  for (let index = 0; index < layers.length; index += perPhoto)
    takeLayersPhoto(act, repairOf(act, repairId), gate, layers.slice(index, index + perPhoto))
}

function takeLayersPhoto(
  act: Act,
  repair: RepairState,
  gate: Gate,
  layers: RepairState['plan']['layers'],
): void {
  const words = layers.map(({ name, layerId }) => `${name} ${layerWords(repair, layerId, gate)}`)
  const ids = layers.map(({ layerId }) => layerId)
  const attachmentId = takePhoto(act, {
    kind: gate === 'assessed' ? worstKind(repair, ids) : 'section fitted',
    caption: `${repair.plan.name}: ${words.join(', ')}`,
    slate: repair.plan.name,
    serves: ids.map((layerId) => ({ what: 'gate', repairId: repair.id, gate, shows: 'layer', layerId })),
  })
  if (gate === 'assessed') for (const id of ids) addFinding(act, repair, id, attachmentId)
}

function layerWords(repair: RepairState, layerId: LayerId, gate: Gate): string {
  const layer = repair.layers.get(layerId)
  if (gate === 'assessed') return layer?.grade ?? ''
  switch (layer?.decision) {
    case 'replace':
      return 'made new'
    case 'patch':
      return 'patched'
    default:
      return 'treated'
  }
}

const GRADE_PHOTO: Readonly<Record<Grade | 'not seen', DemoPhotoKind>> = {
  sound: 'bare steel',
  surface: 'surface rust',
  pitted: 'pitted',
  holed: 'holed',
  gone: 'holed',
  'not seen': 'cut open',
}

function worstKind(repair: RepairState, layerIds: readonly LayerId[]): DemoPhotoKind {
  const kinds = layerIds.map((id) => GRADE_PHOTO[repair.layers.get(id)?.grade ?? 'not seen'])
  return (['holed', 'pitted', 'surface rust'] as const).find((kind) => kinds.includes(kind)) ?? 'bare steel'
}

/** What is worse than surface rust and calls for metal is a finding. */
function addFinding(act: Act, repair: RepairState, layerId: LayerId, attachmentId: AttachmentId): void {
  const layer = repair.layers.get(layerId)
  const name = repair.plan.layers.find((each) => each.layerId === layerId)?.name ?? 'layer'
  if (layer?.grade !== 'holed' && layer?.grade !== 'gone') return
  const millimetres = Math.round(act.stage.random.between(4, 30)) * 10
  send(act, 'addFinding', {
    findingId: findingIdSchema.parse(act.stage.id('finding')),
    repairId: repair.id,
    layerId,
    kind: 'corrosion',
    grade: layer.grade,
    extent:
      layer.grade === 'gone'
        ? `${millimetres} mm of the ${name} gone`
        : `holes over ${millimetres} mm of the ${name}`,
    needs: layer.grade === 'gone' ? `a new ${name}` : `a patch in the ${name}`,
    attachments: [attachmentId],
  })
}

/** Says of every layer that needs it that it was repaired. */
export function markRepaired(act: Act, repairId: RepairId): void {
  const layerIds = unmetAsks(act, repairId, 'fabricated').flatMap(({ kind, layerId }) =>
    kind === 'layer repaired'
      ? repairOf(act, repairId).plan.layers.filter((each) => each.layerId === layerId)
      : [],
  )
  if (layerIds.length > 0)
    send(act, 'markLayers', { repairId, layerIds: layerIds.map(({ layerId }) => layerId), mark: 'repaired' })
}

/** Every layer that is not closed over gets its primer. */
export function markCoated(act: Act, repairId: RepairId): void {
  const layerIds = [...repairOf(act, repairId).layers.values()].flatMap(({ id, coated, closedOver }) =>
    coated === null && closedOver === null ? [id] : [],
  )
  if (layerIds.length > 0) send(act, 'markLayers', { repairId, layerIds, mark: 'coated' })
}
