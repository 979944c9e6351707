/** Headings of a report, and cars in the middle of a week, for the tests of its sentences. */
import { findingIdSchema } from '../../domain/ids.ts'
import { buildCar, type CarBuilder, onGate, repairId } from './car-builder.ts'
import { layerId } from './plans.ts'

export const NEEDS = 'What we need from you'
export const FOUND = 'What we found'
export const DID = 'What we did'
export const TROUBLE = 'What did not go to plan'
export const STANDS = 'Where each repair stands'
export const NEXT = 'What comes next'
export const READY = 'When it will be ready'
export const KNOW = 'What you should know'
export const DECIDED = 'What was decided'

/** In work since Mon 2 Nov: a sill and a boot floor, agreed at 2 h a gate. */
export const inWork = (): CarBuilder =>
  buildCar()
    .repair('Sill, left', { loadBearing: true, zone: { side: 'left', place: 'middle' } })
    .repair('Boot floor')
    .agree('Sill, left')
    .agree('Boot floor')

export const graded = (
  car: CarBuilder,
  repair: string,
  layer: string,
  grade: 'pitted' | 'holed' | 'surface' | 'sound',
) =>
  car.add('layerGraded', {
    repairId: repairId(repair),
    layerId: layerId(repair, layer),
    grade,
    judgedBy: '',
    remainingMm: grade === 'pitted' ? 0.75 : null,
    decision:
      grade === 'sound' ? 'keep' : grade === 'surface' ? 'treat' : grade === 'pitted' ? 'patch' : 'replace',
  })

export const found = (car: CarBuilder, id: string) =>
  car.add('findingAdded', {
    findingId: findingIdSchema.parse(`finding-${id}`),
    repairId: repairId('Boot floor'),
    layerId: layerId('Boot floor', 'inner'),
    kind: 'corrosion',
    grade: 'holed',
    extent: '120 mm along the flange.',
    needs: 'a new flange, 150 mm long',
    attachments: [],
  })

export const work = (car: CarBuilder, id: string, date: string, hours: number, repair = 'Boot floor') =>
  car.log(id, 'Joss', { kind: 'day', date, hours }, [onGate(repair, 'fabricated')])
