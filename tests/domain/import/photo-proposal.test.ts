import { describe, expect, test } from 'vitest'
import { cardProposal } from '../../../domain/import/photo-proposal.ts'
import { cardNow, cardPhoto, dayOnTheBootFloor } from '../../support/card.ts'
import { onGate } from '../../support/car-builder.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const propose = (...times: readonly (string | null)[]) =>
  cardProposal({
    photos: times.map((time, index) => cardPhoto(`${index}`, time)),
    cars: [dayOnTheBootFloor().car()],
    of: null,
    by: null,
    correction: null,
    now: cardNow,
    workshop: buildWorkshop(),
    nameOf,
  })

describe('the proposal for a card', () => {
  test('lists the photos as they were taken, those without a date last', () => {
    const { photos } = propose(null, '2026-11-24T14:32:10', '2026-11-24T08:30:00')
    expect(photos.map(({ takenIso }) => takenIso)).toEqual([
      '2026-11-24T08:30:00+00:00',
      '2026-11-24T14:32:10+00:00',
      null,
    ])
  })

  test('names the work of each day with the clocks and passings that the photos are set beside', () => {
    const { days } = propose('2026-11-24T14:32:10', '2026-11-24T09:36:00', '2026-11-23T14:32:10')
    const at = (time: string) => Date.parse(`2026-11-24T${time}:00Z`)
    expect(days).toHaveLength(1)
    expect(days[0]?.date).toBe('2026-11-24')
    expect(days[0]?.works).toContainEqual({
      carId: 'car-dunmere',
      target: onGate('Boot floor, right', 'opened'),
      spans: [{ from: at('08:00'), to: at('09:30') }],
      passed: [at('09:40')],
    })
    expect(days[0]?.works.map(({ target }) => target)).toContainEqual(
      onGate('Boot floor, right', 'fabricated'),
    )
  })
})
