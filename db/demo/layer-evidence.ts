import type { RepairState } from '../../domain/car.ts'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import type { Gate } from '../../domain/gates.ts'
import { findingIdSchema, type AttachmentId, type LayerId, type RepairId } from '../../domain/ids.ts'
import {
  demoRepairOf,
  namesInCaption,
  namesOnSlate,
  repairOf,
  send,
  takePhoto,
  unmetAsks,
  type Act,
} from './act.ts'
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

/** Worse further out, where the water comes from, with some luck either way; `outwards` is above 0 and up to 1. */
function usualGrade({ stage }: Act, outwards: number): Grade {
  const worse = Math.round(1 + 2.4 * outwards + stage.random.between(-1, 1))
  return GRADES[Math.min(GRADES.length - 1, Math.max(0, worse))] ?? 'pitted'
}

interface WantedLayer {
  readonly repair: RepairState
  readonly layerId: LayerId
  readonly name: string
}

/** The photos of layers that the gate asks for, some layers on each; bad ones found at assessed are written down. */
export function takeLayerPhotos(act: Act, repairIds: readonly RepairId[], gate: Gate): void {
  const wanted = repairIds.flatMap((id) => wantedLayers(act, id, gate))
  for (let index = 0; index < wanted.length; index += LAYERS_PER_PHOTO)
    takeLayersPhoto(act, gate, wanted.slice(index, index + LAYERS_PER_PHOTO))
}

const LAYERS_PER_PHOTO = 3

function wantedLayers(act: Act, repairId: RepairId, gate: Gate): readonly WantedLayer[] {
  const repair = repairOf(act, repairId)
  const wanted = new Set(
    unmetAsks(act, repairId, gate).flatMap((ask) => (ask.kind === 'layer photo' ? [ask.layerId] : [])),
  )
  return repair.plan.layers
    .filter(({ layerId }) => wanted.has(layerId))
    .map(({ layerId, name }) => ({ repair, layerId, name }))
}

function takeLayersPhoto(act: Act, gate: Gate, layers: readonly WantedLayer[]): void {
  const words = layers.map(({ repair, layerId, name }) => `${name} ${layerWords(repair, layerId, gate)}`)
  const names = [...new Set(layers.map(({ repair }) => repair.plan.name))]
  const attachmentId = takePhoto(act, {
    kind: gate === 'assessed' ? worstKind(layers) : 'section fitted',
    caption: `${namesInCaption(names)}: ${words.join(', ')}`,
    slate: namesOnSlate(names),
    serves: layers.map(({ repair, layerId }) => ({
      what: 'gate',
      repairId: repair.id,
      gate,
      shows: 'layer',
      layerId,
    })),
  })
  if (gate === 'assessed') for (const layer of layers) addFinding(act, layer, attachmentId)
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

function worstKind(layers: readonly WantedLayer[]): DemoPhotoKind {
  const kinds = layers.map(
    ({ repair, layerId }) => GRADE_PHOTO[repair.layers.get(layerId)?.grade ?? 'not seen'],
  )
  return (['holed', 'pitted', 'surface rust'] as const).find((kind) => kinds.includes(kind)) ?? 'bare steel'
}

/** What calls for new metal is a finding. */
function addFinding(act: Act, { repair, layerId, name }: WantedLayer, attachmentId: AttachmentId): void {
  const layer = repair.layers.get(layerId)
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
