/**
 * Over 300 lines because it is one long story: every kind of command is accepted in it at least once, so that the
 * journal holds every kind of fact.
 */
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { PhotoServes } from '../../domain/facts/work-facts.ts'
import { GATES, type Gate } from '../../domain/gates.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  bayIdSchema,
  bookingIdSchema,
  costIdSchema,
  dimensionIdSchema,
  edgeIdSchema,
  entryIdSchema,
  findingIdSchema,
  fitGroupIdSchema,
  holdIdSchema,
  jointIdSchema,
  liftIdSchema,
  overtimeIdSchema,
  partIdSchema,
  partyIdSchema,
  planIdSchema,
  readingIdSchema,
  repairIdSchema,
  reportIdSchema,
  spendingIdSchema,
  taskIdSchema,
  typeIdSchema,
  variationIdSchema,
  visitIdSchema,
  type CarId,
  type RepairId,
} from '../../domain/ids.ts'
import { usualPlanning, usualReports, usualSettings } from '../../domain/usual-workshop.ts'
import { chainHead } from '../../db/journal.ts'
import { linkHeads } from '../../db/link-heads.ts'
import { keepPlan, type PlanToKeep } from '../../db/plans.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { layerId, repairPlan, slug, taskPlan } from '../support/plans.ts'
import {
  createWorkshop,
  dippingFirm,
  fullWeek,
  insurer,
  jigBay,
  manager,
  metalBay,
  owner,
  painter,
  storageBay,
  welder,
  type Workshop,
} from '../support/workshop.ts'
import { bringIn } from '../support/came-car.ts'
import { sure } from '../support/varied.ts'

const bootFloor = repairIdSchema.parse('repair-boot-floor')
const hanger = repairIdSchema.parse('repair-hanger')
const valance = repairIdSchema.parse('repair-valance')
const leftSill = repairIdSchema.parse('repair-left-sill')
const patchOne = repairIdSchema.parse('repair-patch-one')
const patchTwo = repairIdSchema.parse('repair-patch-two')
const entry = (name: string) => entryIdSchema.parse(`entry-${name}`)
const reading = (name: string) => readingIdSchema.parse(`reading-${name}`)
const attachment = (name: string) => attachmentIdSchema.parse(`attachment-${name}`)

/**
 * Tells the story of one car from its coming in to its return under warranty.
 *
 * @param photos digests of three photos that are recorded already
 * @param report, page digests of the files of a report that are stored already
 */
export function recordEveryKind(
  workshop: Workshop,
  photos: readonly string[],
  report: string,
  page = 'e'.repeat(64),
): CarId {
  const carId = workshop.addCar()
  const on = { carId }
  changeTheWorkshop(workshop)
  receiveTheCar(workshop, carId)
  addWork(workshop, carId)
  agree(workshop, carId)
  repairTheBootFloor(workshop, carId, photos)
  logTime(workshop, carId)
  decideVariations(workshop, carId, photos)
  planTheWork(workshop, carId)
  workshop.run(
    'issueReport',
    {
      reportId: reportIdSchema.parse('report-week-48'),
      visitId: visitIdSchema.parse('visit-s-101'),
      week: '2026-W48',
      sha256: report,
      page,
      head: chainHead(workshop.db, carId),
      words: 'The boot floor is open.',
      photos: [attachment('before')],
      crops: [{ attachmentId: attachment('before'), crop: { left: 0.1, top: 0, width: 0.5, height: 0.75 } }],
      names: true,
      dates: 'later date',
      language: 'de',
      title: 'Larkspur 4, week 48',
    },
    on,
  )
  goAwayAndComeBack(workshop, carId)
  finishAndReturn(workshop, carId)
  bringOneIn(workshop)
  linkHeads(workshop.db, workshop.now)
  return carId
}

function changeTheWorkshop(workshop: Workshop): void {
  const typeId = typeIdSchema.parse('type-boot-floor')
  workshop.run('changePerson', {
    personId: painter,
    roles: ['technician'],
    skills: ['paint'],
    week: fullWeek,
    absences: [{ from: '2026-12-24', to: '2027-01-03' }],
    active: true,
    contact: { name: 'Tomasz Hale', phone: '555 0117', email: '', address: '' },
  })
  workshop.run('setCode', { personId: welder, newCode: '27182' })
  workshop.run('changeContact', {
    id: owner,
    contact: { name: 'R. Okafor', phone: '', email: 'okafor@example.org', address: '4 Quay Lane' },
  })
  const former = partyIdSchema.parse('party-former')
  const formerContact = { name: 'A. Former', phone: '', email: '' as const, address: '' }
  workshop.run('addParty', { partyId: former, kind: 'insurer', contact: formerContact })
  workshop.run('eraseContact', { id: former })
  const newBay = bayIdSchema.parse('bay-booth')
  const bay = {
    bayId: newBay,
    name: 'Booth',
    kinds: ['booth'],
    floor: { x: 300, y: 0, width: 60, height: 80 },
  }
  workshop.run('addBay', bay)
  workshop.run('changeBay', { ...bay, name: 'Paint booth', active: true })
  workshop.run('changeSettings', { ...usualSettings, gapNominalMm: 4.5 })
  const bySkill = [{ skill: 'weld', perHour: 7_200 }]
  workshop.run('setReports', { ...usualReports, weekly: { weekday: 5, time: '16:00' } })
  workshop.run('setRates', { from: '2026-01-01', usual: 6_400, bySkill })
  workshop.run('saveType', { typeId, plan: repairPlan('Boot floor') })
  workshop.run('saveType', {
    typeId,
    plan: repairPlan('Boot floor', { gates: { primed: { cureHours: 1 } } }),
  })
  workshop.run('retireType', { typeId, reason: 'Twice on the list.' })
}

function receiveTheCar(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  const dimensionId = dimensionIdSchema.parse('dimension-door')
  const bookingId = bookingIdSchema.parse('booking-first')
  const later = bookingIdSchema.parse('booking-later')
  const visitId = visitIdSchema.parse('visit-s-101')
  workshop.run('changeCar', { shellNumber: 'S-101', name: 'Larkspur Four', body: 'tourer', year: 1962 }, on)
  workshop.run(
    'changeVisit',
    {
      visitId,
      promised: '2027-04-30',
      priority: 2,
      charge: { by: 'capped', capHours: 400 },
      insurerId: insurer,
    },
    on,
  )
  workshop.run('setVisitStatus', { visitId, status: 'paused', reason: 'The owner is abroad.' }, on)
  workshop.run('setVisitStatus', { visitId, status: 'in work', reason: '' }, on)
  workshop.run('bookBay', { bookingId, bayId: jigBay, from: '2026-11-23', to: '2026-12-04' }, on)
  workshop.run('changeBooking', { bookingId, bayId: jigBay, from: '2026-11-23', to: '2026-12-11' }, on)
  workshop.run('bookBay', { bookingId: later, bayId: metalBay, from: '2027-01-04', to: '2027-01-08' }, on)
  workshop.run('cancelBooking', { bookingId: later, reason: 'Not needed.' }, on)
  workshop.run('moveShell', { bayId: jigBay, fixture: 'jig', note: '' }, on)
  for (const item of ['bracing', 'battery', 'fuel'] as const)
    workshop.run('setSafety', { item, stands: true, note: '' }, on)
  const stood = { stood: 'jig', doorsHung: true } as const
  workshop.run(
    'addDimension',
    { dimensionId, name: 'Left door, A', kind: 'aperture', side: 'left', limitMm: 2, mm: 1102, ...stood },
    on,
  )
  workshop.run(
    'setDimensionTarget',
    { dimensionId, targetMm: 1104.5, reason: 'The shell sags by 2.5 mm.' },
    on,
  )
  workshop.run('readDimension', { readingId: reading('door'), dimensionId, mm: 1103.5, ...stood }, on)
  workshop.run('addNote', { text: 'Keys are in the office. ✂️\nSecond line.' }, on)
}

/** The boot floor covers the hanger; the sill on the other side bears load; two patches come and go. */
function addWork(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  const groupId = fitGroupIdSchema.parse('group-boot-lid')
  const passing = fitGroupIdSchema.parse('group-passing')
  const welds = [
    { jointId: jointIdSchema.parse('joint-floor'), name: 'floor edge', kind: 'spot' as const, planned: 24 },
  ]
  const parts = [
    { partId: partIdSchema.parse('part-panel'), name: 'floor panel', gate: 'fabricated' as const },
  ]
  const add = (repairId: RepairId, plan: CommandPayload<'addRepair'>['plan'], covers: RepairId[] = []) =>
    workshop.run('addRepair', { repairId, type: null, plan, payer: 'owner', covers, coveredBy: [] }, on)
  add(hanger, repairPlan('Spring hanger', { loadBearing: true }))
  add(bootFloor, repairPlan('Boot floor', { welds, parts, gates: { welded: { hotWork: true } } }), [hanger])
  add(valance, repairPlan('Rear valance', { outer: true }))
  add(leftSill, repairPlan('Left sill', { loadBearing: true, zone: { side: 'left', place: 'middle' } }))
  workshop.run(
    'changeRepair',
    { repairId: valance, plan: repairPlan('Rear valance', { outer: true }), typeVersion: null, reason: '' },
    on,
  )
  workshop.run('takeHours', { repairId: leftSill, repairs: 14, over: 1.15, deviation: 0.2 }, on)
  workshop.run('linkCover', { over: valance, under: bootFloor }, on)
  workshop.run('unlinkCover', { over: valance, under: bootFloor, reason: 'It does not reach so far.' }, on)
  const edges = [
    {
      edgeId: edgeIdSchema.parse('edge-lid-left'),
      name: 'left edge',
      nominalMm: 4,
      toleranceMm: 1,
      flushToleranceMm: 1,
    },
  ]
  workshop.run(
    'setFitGroup',
    { groupId, name: 'Boot lid', members: [valance], hungParts: ['boot lid'], edges },
    on,
  )
  workshop.run(
    'setFitGroup',
    { groupId: passing, name: 'Passing', members: [], hungParts: [], edges: [] },
    on,
  )
  workshop.run('dissolveFitGroup', { groupId: passing, reason: 'Made by mistake.' }, on)
  workshop.run(
    'splitRepair',
    {
      repairId: valance,
      newRepairId: patchOne,
      plan: repairPlan('Patch one'),
      share: 0.25,
      reason: 'The corner is a job by itself.',
    },
    on,
  )
  add(patchTwo, repairPlan('Patch two'))
  workshop.run('mergeRepairs', { repairId: patchOne, into: patchTwo, reason: 'One plate does both.' }, on)
  workshop.run('retireRepair', { repairId: patchTwo, reason: 'The metal is sound.' }, on)
  for (const name of ['strip', 'wash']) {
    const taskId = taskIdSchema.parse(`task-${name}`)
    workshop.run('addTask', { taskId, plan: taskPlan(name) }, on)
    workshop.run('changeTask', { taskId, plan: taskPlan(name, { people: 2 }) }, on)
  }
}

function agree(workshop: Workshop, carId: CarId): void {
  const visitId = visitIdSchema.parse('visit-s-101')
  const visit = workshop.car(carId).visits.get(visitId)
  const lineIds = [...(visit?.lines.values() ?? [])]
    .filter((line) => line.payer === 'owner')
    .map((line) => line.lineId)
  const plate = { costId: costIdSchema.parse('cost-plate'), repairId: bootFloor, kind: 'material' as const }
  const costs = [{ ...plate, name: 'Steel sheet 1 mm', amount: 4_250, payer: 'owner' as const }]
  const unneeded = {
    ...plate,
    costId: costIdSchema.parse('cost-unneeded'),
    name: 'Spare panel',
    amount: 12_000,
  }
  workshop.run('setCosts', { visitId, costs: [...costs, { ...unneeded, payer: 'owner' }] }, { carId })
  workshop.run('takeCostOff', { visitId, costId: unneeded.costId }, { carId })
  const accepted = { visitId, payer: 'owner' as const, lineIds, costIds: [plate.costId] }
  workshop.run('acceptEstimate', { ...accepted, how: 'letter', note: '' }, { carId })
  const bought = { spendingId: spendingIdSchema.parse('spending-plate'), visitId, ...plate }
  workshop.run(
    'spendCost',
    { ...bought, name: 'Steel sheet 1 mm', date: '2026-11-20', amount: 3_990, payer: 'owner' },
    { carId },
  )
  workshop.run(
    'gradeOutside',
    { repairId: bootFloor, grade: 'pitted', note: 'blisters from below' },
    { carId },
  )
  workshop.run(
    'signTask',
    { taskId: taskIdSchema.parse('task-strip'), did: [painter], note: '' },
    { carId, by: painter },
  )
}

function repairTheBootFloor(workshop: Workshop, carId: CarId, photos: readonly string[]): void {
  const on = { carId }
  const attach = (name: string, index: number, serves: PhotoServes[], taken: string | null = null) =>
    workshop.run(
      'attachPhoto',
      { attachmentId: attachment(name), sha256: photos[index]!, taken, caption: name, serves },
      on,
    )
  const shows = (gate: Gate, what: 'before' | 'prepared'): PhotoServes => ({
    what: 'gate',
    repairId: bootFloor,
    gate,
    shows: what,
    layerId: null,
  })
  attach('before', 0, [shows('opened', 'before')], '2026-11-23T07:50:00+01:00')
  attach('prepared', 1, [shows('primed', 'prepared')])
  attach('wrong', 2, [{ what: 'car' }])
  workshop.run('setCaption', { attachmentId: attachment('before'), caption: 'Boot floor before cutting' }, on)
  workshop.run(
    'setPhotoShows',
    { attachmentId: attachment('wrong'), serves: [shows('opened', 'before')] },
    on,
  )
  const rust = { kind: 'circle', from: { x: 0.2, y: 0.25 }, to: { x: 0.6, y: 0.75 } } as const
  workshop.run('markPhoto', { attachmentId: attachment('before'), marks: [rust] }, on)
  const wrong = workshop.run('addNote', { text: 'Wrong car.' }, on)
  workshop.run('voidFact', { number: wrong.numbers[0]!, reason: 'It was another car.' }, on)

  pass(workshop, carId, 'opened', [bootFloor])
  grade(workshop, carId)
  pass(workshop, carId, 'assessed', [bootFloor])
  workshop.run('reviewEstimate', { repairId: bootFloor, note: '' }, on)
  const panel = partIdSchema.parse('part-panel')
  workshop.run('movePart', { partId: panel, state: 'received', expected: null, reason: '' }, on)
  workshop.run('movePart', { partId: panel, state: 'checked', expected: null, reason: '' }, on)
  workshop.run(
    'needPart',
    { partId: partIdSchema.parse('part-clips'), repairId: bootFloor, gate: 'painted', name: 'clips' },
    on,
  )
  workshop.run(
    'markLayers',
    {
      repairId: bootFloor,
      layerIds: ['inner', 'closing'].map((name) => layerId('Boot floor', name)),
      mark: 'repaired',
    },
    on,
  )
  pass(workshop, carId, 'fabricated', [bootFloor])
  workshop.run('checkDrains', { readingId: reading('drains'), repairIds: [bootFloor], note: '' }, on)
  workshop.run(
    'prepareSurface',
    { repairId: bootFloor, gate: 'primed', attachmentId: attachment('prepared') },
    on,
  )
  workshop.run(
    'readConditions',
    {
      readingId: reading('air'),
      repairIds: [bootFloor],
      gate: 'primed',
      airC: 16,
      humidityPercent: 71,
      steelC: 15,
    },
    on,
  )
  workshop.run(
    'recordFitUp',
    {
      readingId: reading('dry'),
      groupId: fitGroupIdSchema.parse('group-boot-lid'),
      kind: 'dry',
      readings: [{ edgeId: edgeIdSchema.parse('edge-lid-left'), gapsMm: [4, 4.4, 4.1], flushMm: 0.5 }],
      good: false,
      note: '',
    },
    on,
  )
  workshop.run(
    'countWelds',
    {
      readingId: reading('welds'),
      repairId: bootFloor,
      welds: [{ jointId: jointIdSchema.parse('joint-floor'), done: 24 }],
    },
    on,
  )
  holdAndRelease(workshop, carId)
  workshop.run(
    'liftSupport',
    {
      liftId: liftIdSchema.parse('lift-both'),
      repairIds: [hanger, leftSill],
      how: 'On the jig, fully braced.',
    },
    on,
  )
}

function grade(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  workshop.run(
    'gradeLayer',
    {
      repairId: bootFloor,
      layerId: layerId('Boot floor', 'inner'),
      grade: 'pitted',
      judgedBy: '',
      remainingMm: 0.9,
      decision: 'patch',
    },
    on,
  )
  workshop.run(
    'gradeLayer',
    {
      repairId: bootFloor,
      layerId: layerId('Boot floor', 'closing'),
      grade: 'not seen',
      judgedBy: 'By sound.',
      remainingMm: null,
      decision: 'replace',
    },
    on,
  )
  workshop.run(
    'addFinding',
    {
      findingId: findingIdSchema.parse('finding-crack'),
      repairId: bootFloor,
      layerId: layerId('Boot floor', 'inner'),
      kind: 'crack',
      grade: 'pitted',
      extent: '40 mm along the flange',
      needs: 'Weld and dress.',
      attachments: [attachment('before')],
    },
    on,
  )
}

function holdAndRelease(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  const holdId = holdIdSchema.parse('hold-inspector')
  const scope = { kind: 'gate' as const, repairId: bootFloor, gate: 'sealed' as const }
  const other = holdIdSchema.parse('hold-payment')
  const named = { repairId: bootFloor, gate: 'sealed', code: 'by hand', subject: holdId } as const
  workshop.run(
    'setHold',
    { holdId, scope, words: 'The inspector looks at it.', clears: 'the inspector', expected: '2026-12-01' },
    on,
  )
  workshop.run('askRelease', { ...named, reason: 'She has seen it today.' }, { carId, by: welder })
  workshop.run('releaseHold', { ...named, reason: 'Seen and agreed by phone.' }, on)
  workshop.run(
    'setHold',
    {
      holdId: other,
      scope: { kind: 'car' },
      words: 'Waits for payment.',
      clears: 'the owner',
      expected: null,
    },
    on,
  )
  workshop.run('clearHold', { holdId: other, note: 'Paid.' }, on)
  workshop.run('markNotNeeded', { repairId: bootFloor, gate: 'sealed', reason: 'No seams here.' }, on)
  workshop.run(
    'reopenGate',
    { repairId: bootFloor, gate: 'fabricated', cause: 'fit', reason: 'The plate is too short.' },
    on,
  )
}

function logTime(workshop: Workshop, carId: CarId): void {
  const targets = [{ kind: 'gate' as const, repairId: bootFloor, gate: 'welded' as const }]
  const on = { kind: 'work' as const, targets }
  const workshopTime = { kind: 'workshop' as const, what: 'Sweeping' }
  const start = (name: string) =>
    workshop.run(
      'startClock',
      { entryId: entry(name), personId: welder, on, hotWork: true, cause: null },
      { carId, by: welder },
    )
  const stop = (name: string) =>
    workshop.run('stopClock', { entryId: entry(name), overtime: false, shares: null }, { carId, by: welder })
  start('morning')
  workshop.pass({ hours: 2 })
  stop('morning')
  workshop.pass({ hours: 1, minutes: 5 })
  workshop.run('completeWatch', { entryId: entry('morning'), note: 'Cold.' }, { carId, by: painter })
  start('evening')
  // Stopped long after the end of the day: counts to that end until it is confirmed.
  workshop.pass({ hours: 12 })
  stop('evening')
  workshop.run(
    'confirmClock',
    { entryId: entry('evening'), end: '2026-11-23T17:00:00+01:00', reason: 'Forgot to stop it.' },
    { carId },
  )
  const logged = { personId: welder, hotWork: false, cause: null, shares: null, watchMinutes: null }
  const day = { kind: 'day' as const, date: '2026-11-20', hours: 3.5 }
  workshop.run(
    'logTime',
    { ...withoutWatch(logged), entryId: entry('paper'), on, time: day, note: 'From paper.' },
    { carId },
  )
  workshop.run(
    'correctTime',
    {
      entryId: entry('paper-2'),
      replaces: entry('paper'),
      personId: welder,
      on,
      cause: null,
      time: { ...day, hours: 3 },
      shares: null,
      reason: 'Read wrongly.',
    },
    { carId },
  )
  workshop.run('logTime', {
    ...withoutWatch(logged),
    entryId: entry('sweeping'),
    on: workshopTime,
    time: { kind: 'span', start: '2026-11-20T16:00:00+01:00', end: '2026-11-20T16:30:00+01:00' },
    note: '',
  })
}

function withoutWatch<T extends { readonly watchMinutes: null }>({ watchMinutes: _, ...rest }: T) {
  return rest
}

function decideVariations(workshop: Workshop, carId: CarId, photos: readonly string[]): void {
  const on = { carId }
  const raise = (name: string, repairId: RepairId) => {
    const variationId = variationIdSchema.parse(`variation-${slug(name)}`)
    workshop.run(
      'raiseVariation',
      {
        variationId,
        visitId: visitIdSchema.parse('visit-s-101'),
        payer: 'owner',
        title: name,
        why: 'Found behind the panel.',
        ifNot: 'It will rust on.',
        findings: [],
        attachments: [],
        lines: [{ target: { kind: 'gate', repairId, gate: 'fabricated' }, hours: 4, low: 3, high: 7 }],
        costs: [],
      },
      on,
    )
    return variationId
  }
  const decide = (variationId: ReturnType<typeof raise>, decision: 'accepted' | 'declined') =>
    workshop.run('decideVariation', { variationId, decision, changed: null, how: 'call', note: '' }, on)
  decide(raise('a longer plate', bootFloor), 'accepted')
  const ours = raise('our own mistake', bootFloor)
  decide(ours, 'declined')
  workshop.run('settleDeclined', { variationId: ours, choice: 'workshop pays', reason: 'Our fault.' }, on)
  const sill = raise('the whole sill', leftSill)
  decide(sill, 'declined')
  const layers = ['inner', 'closing'].map((name) => layerId('Left sill', name))
  const left = attachment('sill-as-left')
  workshop.run(
    'attachPhoto',
    {
      attachmentId: left,
      sha256: photos[2]!,
      taken: null,
      caption: 'As left',
      serves: layers.map((layer) => ({
        what: 'gate' as const,
        repairId: leftSill,
        gate: 'assessed' as const,
        shows: 'as left' as const,
        layerId: layer,
      })),
    },
    on,
  )
  workshop.run(
    'closeAsFound',
    {
      repairId: leftSill,
      variationId: sill,
      attachments: [left],
      protection: 'Cavity wax.',
      answer: 'Next winter.',
      cautionShown: true,
    },
    on,
  )
}

function planTheWork(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  const target = { kind: 'gate' as const, repairId: valance, gate: 'opened' as const }
  const variationId = variationIdSchema.parse('variation-a-new-lid')
  workshop.run('planFixture', { fixture: 'rotisserie' }, on)
  workshop.run('pinWork', { target, people: [welder], day: '2026-11-27' }, on)
  workshop.run('unpinWork', { target }, on)
  workshop.run('sayLeft', { target, hours: 0.5 }, { carId, by: welder })
  workshop.run(
    'raiseVariation',
    {
      variationId,
      visitId: visitIdSchema.parse('visit-s-101'),
      payer: 'owner',
      title: 'a new lid',
      why: 'Bent beyond dressing.',
      ifNot: '',
      findings: [],
      attachments: [],
      lines: [sure({ ...target, gate: 'fabricated' }, 6)],
      costs: [],
    },
    on,
  )
  workshop.run('expectDecision', { variationId, expected: '2026-12-04' }, on)
  workshop.run('setPlanning', { ...usualPlanning, frozenDays: 3 })
  workshop.run('setFixtures', { counts: { jig: 1, rotisserie: 2, dolly: null } })
  const overtime = { people: [welder], from: '2026-11-28', to: '2026-12-19', weekdays: [6] }
  for (const name of ['first', 'second'])
    workshop.run('setOvertime', {
      ...overtime,
      overtimeId: overtimeIdSchema.parse(`overtime-${name}`),
      span: { from: '08:00', to: '12:00' },
    })
  workshop.run('cancelOvertime', { overtimeId: overtimeIdSchema.parse('overtime-second') })
  takeAPlan(workshop, carId)
}

/** One plan is kept and taken, another only proposed, a third tells how the finish moved. */
function takeAPlan(workshop: Workshop, carId: CarId): void {
  const keep = (name: string, why: PlanToKeep['why'], finish50: number | null) =>
    keepPlan(
      workshop.db,
      {
        planId: planIdSchema.parse(`plan-${name}`),
        plan: simplePlan(carId, { finish50 }),
        why,
        cause: 'A new lid is asked for.',
        revision: 1,
      },
      workshop.now,
    )
  keep('first', 'proposal', Date.parse('2027-03-23T16:30:00+01:00'))
  keep('second', 'proposal', null)
  keep('moved', 'moved', Date.parse('2027-03-25T16:30:00+01:00'))
  workshop.run('takePlan', { planId: planIdSchema.parse('plan-first') })
}

function goAwayAndComeBack(workshop: Workshop, carId: CarId): void {
  const awayId = awayIdSchema.parse('away-dipping')
  workshop.run(
    'sendAway',
    { awayId, firmId: dippingFirm, what: 'Dipping', from: '2026-11-24', expected: '2026-11-27' },
    { carId },
  )
  workshop.pass({ hours: 72 })
  workshop.run(
    'bringBack',
    {
      awayId,
      bayId: storageBay,
      fixture: 'dolly',
      tookBack: [{ repairId: bootFloor, gate: 'assessed' }],
      uncovered: 'An earlier patch behind the hanger.',
      reason: 'Dipping took the primer off.',
    },
    { carId },
  )
}

/** Everything is passed or not needed, the car is delivered and comes back under warranty. */
function finishAndReturn(workshop: Workshop, carId: CarId): void {
  const on = { carId }
  const strip = taskIdSchema.parse('task-strip')
  workshop.run('reopenTask', { taskId: strip, cause: 'damaged after', reason: 'The seats went back in.' }, on)
  for (const taskId of [strip, taskIdSchema.parse('task-wash')])
    workshop.run('markTaskNotNeeded', { taskId, reason: 'Done by the owner.' }, on)
  for (const gate of GATES.filter((each) => each !== 'opened'))
    for (const repairId of [bootFloor, valance, hanger])
      if (gate !== 'welded') notNeeded(workshop, carId, repairId, gate)
  const visitId = visitIdSchema.parse('visit-s-101')
  workshop.run('retireRepair', { repairId: hanger, reason: 'Sound after dipping.' }, on)
  for (const repairId of [bootFloor, valance])
    for (const gate of ['opened', 'welded'] as const) notNeeded(workshop, carId, repairId, gate)
  workshop.run('completeWatch', { entryId: entry('evening'), note: '' }, { ...on, by: painter })
  workshop.run('setVisitStatus', { visitId, status: 'finished', reason: '' }, on)
  workshop.run('setVisitStatus', { visitId, status: 'delivered', reason: '' }, on)
  workshop.run(
    'openVisit',
    {
      visitId: visitIdSchema.parse('visit-warranty'),
      kind: 'warranty',
      ownerId: owner,
      insurerId: insurer,
      status: 'in work',
      promised: null,
      priority: 3,
      charge: { by: 'fixed' },
    },
    on,
  )
}

/** A car of another workshop comes with its file. */
function bringOneIn(workshop: Workshop): void {
  const other = createWorkshop()
  const carId = other.addCar('Teasel', 'S-900')
  other.addRepair(carId, repairIdSchema.parse('repair-teasel-floor'), repairPlan('Teasel floor'))
  bringIn(other.db, carId, workshop.db, { now: workshop.now })
  other.close()
}

function notNeeded(workshop: Workshop, carId: CarId, repairId: RepairId, gate: Gate): void {
  if (workshop.car(carId).repairs.get(repairId)?.gates[gate].status !== 'open') return
  workshop.run('markNotNeeded', { repairId, gate, reason: 'Sound after dipping.' }, { carId })
}

function pass(workshop: Workshop, carId: CarId, gate: Gate, repairIds: RepairId[]): void {
  workshop.run('passGate', { repairIds, gate, did: [welder], coat: null, note: '' }, { carId, by: manager })
}
