import { describe, expect, it } from 'vitest'
import type { Fact } from '../../../domain/facts.ts'
import {
  attachmentIdSchema,
  awayIdSchema,
  bookingIdSchema,
  costIdSchema,
  dimensionIdSchema,
  findingIdSchema,
  fitGroupIdSchema,
  holdIdSchema,
  lineIdSchema,
  partIdSchema,
  partyIdSchema,
  readingIdSchema,
} from '../../../domain/ids.ts'
import { recordView } from '../../../domain/views/record-view.ts'
import {
  buildCar,
  type CarBuilder,
  entryId,
  onGate,
  personId,
  repairId,
  variationId,
  visitId,
} from '../../support/car-builder.ts'
import { layerId, repairPlan } from '../../support/plans.ts'
import { bayId, buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const workshop = buildWorkshop()
const now = Date.parse('2026-11-25T10:40:00Z')
const head = 'a'.repeat(64)
const recordOf = (facts: readonly Fact[]) =>
  recordView({ facts, head, now, workshop, nameOf, showsMoney: true })
/** Words of the last so many facts, in the order in which they were stated. */
const lastWords = (car: CarBuilder, count = 1) =>
  recordOf(car.facts())
    .lines.slice(0, count)
    .map(({ words }) => words)
    .toReversed()

const bootFloor = () => buildCar().repair('Boot floor')
const gate = { repairId: repairId('Boot floor'), gate: 'opened' as const }

describe('the record', () => {
  it('has a line for every fact, the latest first, with who and when, and the head of the chain', () => {
    const record = recordOf(bootFloor().pass('Boot floor', 'opened').facts())
    expect(record.head).toBe(head)
    expect(record.lines.map(({ number, by, words, repairId: id }) => [number, by, words, id])).toEqual([
      [4, 'Mara', 'Boot floor: opened passed, done by Mara', repairId('Boot floor')],
      [3, 'Mara', 'Repair Boot floor added', repairId('Boot floor')],
      [2, 'Mara', 'Visit opened for Owner, promised Fri 18 Dec', null],
      [1, 'Mara', 'Dunmere Saloon added, shell 0412', null],
    ])
  })

  it('keeps a voided line, marks it and lets nobody void it again', () => {
    const car = bootFloor().pass('Boot floor', 'opened')
    car.add('factVoided', { number: 4, reason: 'that was the other floor' })
    const [voiding, voided, added] = recordOf(car.facts()).lines
    expect(voiding).toMatchObject({ words: 'Line 4 voided: that was the other floor', mayVoid: false })
    expect(voided).toMatchObject({ number: 4, voided: true, mayVoid: false })
    expect(added).toMatchObject({ voided: false, mayVoid: false })
    expect(recordOf(bootFloor().pass('Boot floor', 'opened').facts()).lines[0]!.mayVoid).toBe(true)
  })

  it('names a voided variation and a dissolved group by what they were called', () => {
    const groupId = fitGroupIdSchema.parse('group-boot')
    const car = bootFloor()
      .vary('Corner', [{ target: onGate('Boot floor', 'fabricated'), hours: 2.25 }])
      .decide('Corner', 'accepted')
      .add('fitGroupSet', {
        groupId,
        name: 'boot opening',
        members: [repairId('Boot floor')],
        hungParts: ['boot lid'],
        edges: [],
      })
      .add('fitGroupDissolved', { groupId, reason: 'the lid is off for good' })
    expect(lastWords(car, 4)).toEqual([
      "Variation 'Corner' put to the owner, 2.25 h: found behind the closing plate",
      "Variation 'Corner' accepted, by call",
      'Fit group boot opening: Boot floor; boot lid',
      'Fit group boot opening dissolved: the lid is off for good',
    ])
  })

  it('says what was read, found and photographed', () => {
    const inner = layerId('Boot floor', 'inner')
    const car = bootFloor()
      .add('conditionsRead', {
        readingId: readingIdSchema.parse('reading-one'),
        repairIds: [repairId('Boot floor')],
        gate: 'primed',
        airC: 18,
        humidityPercent: 55,
        steelC: 17.5,
      })
      .add('layerGraded', {
        repairId: repairId('Boot floor'),
        layerId: inner,
        grade: 'pitted',
        judgedBy: '',
        remainingMm: 0.8,
        decision: 'treat',
      })
      .add('findingAdded', {
        findingId: findingIdSchema.parse('finding-one'),
        repairId: repairId('Boot floor'),
        layerId: inner,
        kind: 'earlier patch',
        grade: 'holed',
        extent: '80 mm along the seam',
        needs: 'cutting out',
        attachments: [],
      })
      .photo('seam', [{ what: 'gate', ...gate, shows: 'layer', layerId: inner }])
      .add('dimensionAdded', {
        dimensionId: dimensionIdSchema.parse('dimension-door'),
        name: 'door aperture',
        kind: 'aperture',
        side: 'left',
        limitMm: 2,
        mm: 1214,
        stood: 'stands',
        doorsHung: true,
      })
    expect(lastWords(car, 5)).toEqual([
      'Conditions for primed of Boot floor: air 18.0 °C, humidity 55 %, steel 17.5 °C',
      'Boot floor, inner panel: pitted, 0.8 mm left; treat',
      'Found on Boot floor, inner panel: earlier patch, holed, 80 mm along the seam; needs cutting out',
      'Photo of Boot floor: opened, layer (inner panel): seam',
      'door aperture read as found: 1214 mm',
    ])
  })

  it('says what was held, released and asked for', () => {
    const car = bootFloor()
      .add('holdSet', {
        holdId: holdIdSchema.parse('hold-inspector'),
        scope: { kind: 'gate', ...gate },
        words: 'the inspector looks first',
        clears: 'the inspector',
        expected: '2026-11-27',
      })
      .add('holdCleared', { holdId: holdIdSchema.parse('hold-inspector'), note: 'seen' })
      .add('releaseAsked', { ...gate, code: 'parts', subject: 'part-edge', reason: 'needed later' })
      .add('holdReleased', {
        ...gate,
        code: 'parts',
        subject: 'part-edge',
        reason: 'needed later',
        ownHold: true,
      })
    expect(lastWords(car, 4)).toEqual([
      'Hold set on Boot floor: opened: the inspector looks first; the inspector clears it, expected Fri 27 Nov',
      'Hold cleared: the inspector looks first: seen',
      "Boot floor: release of 'parts' asked for, opened: needed later",
      "Boot floor: hold 'parts' released for opened, by the person it held: needed later",
    ])
  })

  it('says what became of time', () => {
    const car = bootFloor()
      .clock('a', 'Joss', '2026-11-24T14:30', [onGate('Boot floor', 'opened')])
      .add('clockStopped', {
        entryId: entryId('a'),
        end: '2026-11-24T19:00:00Z',
        countsTo: '2026-11-24T16:30:00Z',
        overtime: false,
        shares: null,
        watchMinutes: 60,
      })
      .add('clockConfirmed', {
        entryId: entryId('a'),
        end: '2026-11-24T18:00:00Z',
        reason: 'the panel was off',
      })
      .log('b', 'Wren', { kind: 'day', date: '2026-11-23', hours: 2.5 }, [onGate('Boot floor', 'opened')], {
        cause: 'fit',
      })
      .add('timeCorrected', {
        entryId: entryId('c'),
        replaces: entryId('b'),
        personId: personId('Wren'),
        on: { kind: 'work', targets: [onGate('Boot floor', 'opened')] },
        cause: null,
        time: { kind: 'span', start: '2026-11-23T08:00:00Z', end: '2026-11-23T10:00:00Z' },
        shares: null,
        reason: 'half an hour was lunch',
      })
    expect(lastWords(car, 5)).toEqual([
      'Clock of Joss started on Boot floor: opened',
      'Clock stopped on Boot floor: opened, counts to Tue 24 Nov 16:30 until confirmed, fire watch of 60 minutes begun',
      'Clock on Boot floor: opened confirmed to Tue 24 Nov 18:00: the panel was off',
      'Wren: 2.5 h on Mon 23 Nov on Boot floor: opened, rework: fit',
      'Entry of Wren corrected to Mon 23 Nov 08:00 to Mon 23 Nov 10:00 on Boot floor: opened: half an hour was lunch',
    ])
  })

  it('says where the shell was and what that undid', () => {
    const awayId = awayIdSchema.parse('away-dip')
    const booking = { bookingId: bookingIdSchema.parse('booking-one'), bayId: bayId('3 jig') }
    const car = bootFloor()
      .add('bayBooked', { ...booking, from: '2026-11-26', to: '2026-12-03' })
      .add('shellMoved', { bayId: bayId('3 jig'), fixture: 'jig', note: '' })
      .add('shellSentAway', {
        awayId,
        firmId: partyIdSchema.parse('party-dippers'),
        what: 'dipping',
        from: '2026-11-20',
        expected: '2026-11-24',
      })
      .add('shellReturned', {
        awayId,
        bayId: bayId('yard'),
        fixture: 'dolly',
        tookBack: [{ repairId: repairId('Boot floor'), gate: 'sealed' }],
        uncovered: 'a patch in the sill',
        reason: 'dipping strips sealer',
      })
    expect(lastWords(car, 4)).toEqual([
      'Booked in 3 jig, 26 Nov to 3 Dec',
      'Moved to 3 jig, on jig',
      'Sent away to Dippers, expected back Tue 24 Nov: dipping',
      'Back in yard, taken back: Boot floor: sealed; uncovered: a patch in the sill: dipping strips sealer',
    ])
  })

  it('says how repairs were split, merged and closed as found, and what parts did', () => {
    const partId = partIdSchema.parse('part-edge')
    const car = bootFloor()
      .add('partNeeded', { partId, ...gate, name: 'edge' })
      .add('partMoved', { partId, state: 'ordered', expected: '2026-12-01', reason: '' })
      .add('repairSplit', {
        repairId: repairId('Boot floor'),
        newRepairId: repairId('Boot edge'),
        plan: repairPlan('Boot edge'),
        share: 0.5,
        moves: [{ gate: 'fabricated', hours: 3 }],
        reason: 'another job',
      })
      .add('repairsMerged', {
        repairId: repairId('Boot edge'),
        into: repairId('Boot floor'),
        moves: [],
        reason: 'one cavity after all',
      })
      .add('closedAsFound', {
        repairId: repairId('Boot floor'),
        variationId: variationId('Corner'),
        attachments: [attachmentIdSchema.parse('photo-one')],
        protection: 'wax',
        answer: 'leave it',
        cautionShown: true,
      })
      .add('visitStatusSet', { visitId: visitId('first'), status: 'paused', reason: 'the owner is away' })
    expect(lastWords(car, 6)).toEqual([
      'Part edge needed for Boot floor: opened',
      'Part edge ordered, expected Tue 1 Dec',
      'Boot edge split off Boot floor, 3.0 h moved: another job',
      'Boot edge merged into Boot floor, no hours moved: one cavity after all',
      'Boot floor closed as found; protection: wax: leave it',
      'Visit paused: the owner is away',
    ])
  })

  it('names what was accepted, and not what was not: lines, costs or both', () => {
    const words = (lines: number, costs: number): string => {
      const car = bootFloor().add('estimateAccepted', {
        visitId: visitId('first'),
        payer: 'insurer',
        lineIds: Array.from({ length: lines }, (_, index) => lineIdSchema.parse(`line-number-${index}`)),
        costIds: Array.from({ length: costs }, (_, index) => costIdSchema.parse(`cost-number-${index}`)),
        how: 'letter',
        note: '',
      })
      return lastWords(car).join()
    }
    expect(words(2, 0)).toBe('2 estimate lines accepted by the insurer, by letter')
    expect(words(0, 1)).toBe('1 cost accepted by the insurer, by letter')
    expect(words(1, 2)).toBe('1 estimate line and 2 costs accepted by the insurer, by letter')
  })
})
