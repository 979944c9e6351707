import { createType, type CatalogueType } from './catalogue/type-plan.ts'

const centreRear = { side: 'centre', place: 'rear' } as const
const rightRear = { side: 'right', place: 'rear' } as const
const rightMiddle = { side: 'right', place: 'middle' } as const
const rightFront = { side: 'right', place: 'front' } as const

/**
 * Repair types from all over a shell, to start from; a workshop puts its own figures in their place. Layers, thicknesses
 * (mm), hours, welds, curing and windows are common practice, no source. Person-hours stand in the order of the gates.
 * Types with two sides are drawn on the right.
 */
export const startingCatalogue: readonly CatalogueType[] = [
  createType('spring-hanger-box', 'Spring hanger box', {
    zone: rightRear,
    loadBearing: true,
    bay: 'jig',
    hours: [1.5, 1, 5, 0.5, 0.5, 1, 2.5, 0.5],
    layers: [
      ['spacer tube', 2],
      ['hanger channel', 2],
      ['closing plate', 1.6],
    ],
    welds: [
      ['tube to channel', 'seam', 180],
      ['closing plate flange', 'plug', 14],
    ],
  }),
  createType('chassis-leg-tail', 'Chassis leg tail', {
    zone: rightRear,
    loadBearing: true,
    bay: 'jig',
    hours: [4, 1.5, 20, 1.5, 1.5, 5, 9, 1.5],
    people: { 'trial-fitted': 2 },
    layers: [
      ['spacer tube', 2],
      ['channel', 1.6],
      ['closing plate', 1.2],
    ],
    welds: [
      ['channel to sound leg', 'seam', 420],
      ['closing plate flanges', 'plug', 32],
    ],
  }),
  createType('cross-member-end', 'Cross-member end', {
    zone: rightRear,
    loadBearing: true,
    bay: 'jig',
    hours: [2, 1, 8, 1, 0.75, 2, 4, 1],
    layers: [
      ['inner stiffener', 1.6],
      ['cross-member', 1.6],
      ['lower closing plate', 1.2],
    ],
    welds: [
      ['end to leg', 'seam', 260],
      ['closing plate flange', 'plug', 18],
    ],
  }),
  createType('boot-floor', 'Boot floor', {
    zone: centreRear,
    primedFirst: true,
    hours: [3, 1, 9, 2, 1.5, 2, 5, 1.5],
    layers: [
      ['stiffening ribs', 0.9],
      ['floor sheet', 0.8],
    ],
    welds: [
      ['floor to legs', 'spot', 44],
      ['floor to rear panel', 'plug', 22],
    ],
  }),
  createType('boot-side-well', 'Boot side well', {
    zone: rightRear,
    hours: [2, 1, 8, 1.5, 1, 2, 4, 1],
    layers: [
      ['bracket plate', 1],
      ['well panel', 0.8],
    ],
    welds: [['well flange', 'plug', 26]],
  }),
  createType('spare-wheel-well', 'Spare-wheel well', {
    zone: centreRear,
    primedFirst: true,
    hours: [2, 0.5, 6, 1, 1, 1.5, 3.5, 1],
    layers: [
      ['clamp bracket', 1.6],
      ['well sheet', 0.8],
    ],
    welds: [['well rim', 'spot', 30]],
  }),
  createType('rear-valance-corner', 'Rear valance corner', {
    zone: rightRear,
    outer: true,
    hours: [1, 0.5, 4, 0.5, 0.5, 1.5, 1.5, 1],
    layers: [
      ['inner stiffener', 0.9],
      ['valance skin', 0.9],
    ],
    welds: [
      ['lower flange', 'spot', 12],
      ['skin butt joint', 'seam', 180],
    ],
  }),
  createType('quarter-rear-edge', 'Quarter rear edge', {
    zone: rightRear,
    outer: true,
    hours: [1.5, 0.5, 5, 0.75, 0.5, 2, 2.5, 1.5],
    layers: [
      ['lamp bowl', 0.9],
      ['quarter skin', 0.9],
    ],
    welds: [
      ['skin butt joint', 'seam', 320],
      ['opening flange', 'spot', 14],
    ],
  }),
  createType('wheel-arch', 'Rear wheel arch', {
    zone: rightRear,
    outer: true,
    hours: [2, 1, 9, 1.5, 1, 2, 5, 1.5],
    layers: [
      ['inner arch', 0.9],
      ['outer arch', 0.9],
    ],
    welds: [
      ['arch lip', 'spot', 28],
      ['skin butt joint', 'seam', 640],
    ],
  }),
  createType('sill', 'Sill', {
    zone: rightMiddle,
    loadBearing: true,
    outer: true,
    hours: [4, 1.5, 12, 2, 1.5, 4, 9, 2],
    people: { 'trial-fitted': 2 },
    layers: [
      ['inner sill', 1.2],
      ['stiffener', 1.2],
      ['outer sill', 1.2],
    ],
    welds: [
      ['lower flange', 'spot', 48],
      ['upper flange', 'plug', 36],
      ['end joints', 'seam', 300],
    ],
    parts: [['outer sill pressing', 'trial-fitted']],
  }),
  createType('floor-edge', 'Floor edge', {
    zone: rightMiddle,
    loadBearing: true,
    hours: [2.5, 1, 7, 1, 1, 1.5, 5, 1],
    layers: [
      ['seat cross-rail foot', 1.2],
      ['floor sheet', 0.9],
    ],
    welds: [
      ['floor to inner sill', 'plug', 30],
      ['floor butt joint', 'seam', 500],
    ],
  }),
  createType('jacking-point', 'Jacking point', {
    zone: rightMiddle,
    loadBearing: true,
    bay: 'lift',
    hours: [1, 0.5, 4, 0.5, 0.5, 0.5, 2, 0.5],
    layers: [
      ['jacking tube', 2],
      ['spreader plate', 1.6],
      ['cover plate', 1.2],
    ],
    welds: [
      ['tube to spreader', 'seam', 160],
      ['cover plate flange', 'plug', 12],
    ],
    parts: [['jacking tube', 'fabricated']],
  }),
  createType('pillar-foot', 'Pillar foot', {
    zone: rightMiddle,
    loadBearing: true,
    hours: [3, 1, 9, 1, 0.75, 3, 5, 1],
    people: { 'trial-fitted': 2 },
    layers: [
      ['inner pillar', 1.2],
      ['reinforcement', 1.5],
      ['pillar skin', 0.9],
    ],
    welds: [
      ['pillar to sill', 'plug', 20],
      ['door flange', 'spot', 16],
    ],
  }),
  createType('scuttle-side', 'Scuttle side', {
    zone: rightFront,
    loadBearing: true,
    hours: [3, 1, 10, 1.5, 1, 2, 5, 1],
    layers: [
      ['inner scuttle', 0.9],
      ['drain channel', 0.8],
      ['outer scuttle', 0.9],
    ],
    welds: [
      ['scuttle flange', 'spot', 24],
      ['drain channel', 'seam', 280],
    ],
  }),
  createType('windscreen-frame-foot', 'Windscreen frame foot', {
    zone: rightFront,
    loadBearing: true,
    outer: true,
    hours: [2.5, 1, 8, 1, 0.75, 3, 4.5, 1.5],
    people: { 'trial-fitted': 2 },
    layers: [
      ['inner post', 1.2],
      ['drain tube', 0.8],
      ['outer post', 0.9],
    ],
    welds: [
      ['screen flange', 'spot', 12],
      ['post butt joint', 'seam', 220],
    ],
  }),
  createType('inner-front-wing', 'Inner front wing', {
    zone: rightFront,
    loadBearing: true,
    hours: [2.5, 1, 9, 1.5, 1, 2, 5.5, 1.5],
    layers: [
      ['suspension strengthener', 1.6],
      ['inner wing', 1],
    ],
    welds: [
      ['strengthener', 'plug', 24],
      ['inner wing flange', 'spot', 26],
    ],
  }),
  createType('battery-tray', 'Battery tray', {
    zone: rightFront,
    primedFirst: true,
    hours: [1, 0.5, 3, 0.5, 0.5, 0.5, 1.5, 1],
    layers: [
      ['tray support', 1.2],
      ['tray', 1],
    ],
    welds: [['tray to inner wing', 'plug', 12]],
  }),
  createType('front-panel-corner', 'Front panel corner', {
    zone: rightFront,
    outer: true,
    hours: [1, 0.5, 4.5, 0.75, 0.5, 1.5, 2, 1],
    layers: [
      ['lamp support', 1],
      ['front panel', 0.9],
    ],
    welds: [
      ['wing flange', 'spot', 10],
      ['skin butt joint', 'seam', 200],
    ],
  }),
  createType('roof-gutter', 'Roof gutter', {
    zone: rightMiddle,
    outer: true,
    hours: [2.5, 1, 8, 2, 1, 2, 5, 1.5],
    people: { 'trial-fitted': 2 },
    layers: [
      ['roof rail flange', 1],
      ['gutter', 0.9],
      ['roof edge', 0.9],
    ],
    welds: [['gutter seam', 'spot', 60]],
  }),
  createType('door-skin', 'Door skin', {
    zone: rightMiddle,
    on: 'part',
    outer: true,
    hours: [1.5, 0.5, 5, 1, 0.75, 2, 2.5, 1.5],
    layers: [
      ['door frame flange', 0.9],
      ['door skin', 0.8],
    ],
    welds: [
      ['hem', 'seam', 160],
      ['frame flange', 'spot', 18],
    ],
    parts: [['door skin pressing', 'fabricated']],
  }),
  createType('lid-frame', 'Lid frame', {
    zone: centreRear,
    on: 'part',
    outer: true,
    hours: [1, 0.5, 5, 1, 0.75, 1.5, 2, 1.5],
    layers: [
      ['inner frame', 0.8],
      ['lid skin edge', 0.8],
    ],
    welds: [
      ['frame corner', 'seam', 120],
      ['lid flange', 'spot', 20],
    ],
  }),
]
