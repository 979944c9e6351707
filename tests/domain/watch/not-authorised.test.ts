import { describe, expect, it } from 'vitest'
import { lineIdSchema } from '../../../domain/ids.ts'
import { type CarBuilder, onGate, repairId, variationId, visitId } from '../../support/car-builder.ts'
import { boot, day, dunmere, of, warningsOf } from '../../support/warnings.ts'

const worked = (car: CarBuilder, hours = 2) => car.log('a', 'Joss', day('2026-11-24', hours), [boot])
const corner = (car: CarBuilder, hours = 3) => car.vary('Corner', [{ target: boot, hours }])
const settle = (car: CarBuilder, choice: 'less work' | 'stopped') =>
  car
    .decide('Corner', 'declined')
    .add('declinedSettled', { variationId: variationId('Corner'), choice, reason: 'so agreed' })
const setLine = (car: CarBuilder, id: string, agreed: number, accepted = true) => {
  const lineId = lineIdSchema.parse(`line-${id}`)
  const hours = { shortest: agreed, likely: agreed, longest: agreed }
  const line = { lineId, target: boot, hours, agreed, payer: 'owner' as const }
  car.add('estimateSet', { visitId: visitId('first'), lines: [line] })
  const answer = { payer: 'owner' as const, costIds: [], how: 'call' as const, note: '' }
  return accepted
    ? car.add('estimateAccepted', { visitId: visitId('first'), lineIds: [lineId], ...answer })
    : car
}

describe('hours that nobody has authorised, case by case', () => {
  it('are not said below a twentieth of an hour', () => {
    expect(of('not authorised', worked(dunmere(), 0.04))).toEqual([])
    expect(of('not authorised', worked(dunmere(), 0.06))).toHaveLength(1)
  })

  it('are estimated where the first figure was set to zero since, and where a later one was', () => {
    const taken = worked(setLine(setLine(dunmere(), 'boot', 4), 'boot', 0, false))
    expect(of('not authorised', taken)).toMatchObject([{ hours: 2, why: { is: 'estimate waits' } }])
    const given = worked(setLine(setLine(dunmere(), 'boot', 0), 'boot', 4))
    expect(of('not authorised', given)).toEqual([])
  })

  it('are estimated where their hours came with a merged repair', () => {
    const car = dunmere().repair('Patch').estimate(onGate('Patch', 'opened'), 4).estimate(boot, 0)
    const moves = [{ gate: 'opened' as const, hours: 4 }]
    car.add('repairsMerged', {
      repairId: repairId('Patch'),
      into: repairId('Boot floor'),
      moves,
      reason: 'one plate',
    })
    expect(of('not authorised', worked(car))).toEqual([])
  })

  it('do not wait for what was asked in a visit before', () => {
    const car = corner(dunmere().estimate(boot, 4)).visit('second').estimate(boot, 4)
    expect(of('not authorised', worked(car, 5))).toEqual([])
  })

  it('are not estimated where the only work asked for was given up, and are where it is stopped', () => {
    const asked = () => worked(corner(dunmere()))
    expect(of('not authorised', asked())).toMatchObject([{ why: { is: 'variation waits' } }])
    expect(of('not authorised', settle(asked(), 'less work'))).toMatchObject([
      { why: { is: 'not estimated' } },
    ])
    expect(of('not authorised', settle(asked(), 'stopped'))).toMatchObject([
      { why: { is: 'stopped', title: 'Corner', payer: 'owner' } },
    ])
  })

  it('are authorised by an accepted variation where there is no estimate', () => {
    expect(of('not authorised', worked(corner(dunmere()).decide('Corner', 'accepted')))).toEqual([])
  })

  it('wait for the newest of two questions', () => {
    const car = corner(dunmere().estimate(boot, 1)).vary('Edge', [{ target: boot, hours: 1 }])
    expect(of('not authorised', worked(car))).toMatchObject([{ why: { title: 'Edge' } }])
  })

  it('do not wait for a line of zero hours beside one that is accepted', () => {
    expect(of('not authorised', worked(setLine(dunmere().estimate(boot, 4), 'more', 0, false), 5))).toEqual(
      [],
    )
  })

  it('of what is not needed any more are those beyond the hours that were given back with it', () => {
    const car = corner(worked(dunmere().estimate(boot, 4), 3).notNeeded('Boot floor', 'opened'))
    expect(of('not authorised', car)).toEqual([])
  })

  it('are not told of a repair that was retired or closed as found', () => {
    const retired = worked(dunmere()).add('repairRetired', { repairId: repairId('Boot floor'), reason: 'no' })
    expect(of('not authorised', retired)).toEqual([])
    const asFound = worked(dunmere()).add('closedAsFound', {
      repairId: repairId('Boot floor'),
      variationId: null,
      attachments: [],
      protection: 'Zinc primer and wax.',
      answer: 'Leave it.',
      cautionShown: true,
    })
    expect(of('not authorised', asFound)).toEqual([])
  })
})

describe('warnings of a car that is not in work', () => {
  it('are still those of its clocks after it was delivered', () => {
    const car = dunmere().agree('Boot floor', 40).clock('a', 'Joss', '2026-11-24T14:00', [boot])
    car.add('visitStatusSet', { visitId: visitId('first'), status: 'delivered', reason: '' })
    expect(warningsOf(car.car()).map(({ kind }) => kind)).toEqual(['clock'])
  })

  it('stand worst first while it is paused', () => {
    const scuttle = onGate('Scuttle', 'opened')
    const car = dunmere().repair('Scuttle').clock('a', 'Joss', '2026-11-24T14:00', [boot])
    car.log('b', 'Wren', day('2026-11-24', 9), [scuttle])
    car.add('visitStatusSet', { visitId: visitId('first'), status: 'paused', reason: '' })
    expect(warningsOf(car.car()).map(({ kind, hours }) => [kind, hours > 5])).toEqual([
      ['not authorised', true],
      ['not authorised', false],
      ['clock', true],
    ])
  })
})
