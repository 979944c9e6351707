import { expect, test } from 'vitest'
import { usualBays } from '../../../domain/usual-workshop.ts'
import { freePlace, kept } from '../../../renderer/parts/drawing/bay-place.ts'
import { metres, overlaps, type PlacedBay } from '../../../renderer/workshop/bay-places.ts'

const usual: readonly PlacedBay[] = usualBays.map(({ bayId, name, kinds, floor }) => ({
  bay: { id: bayId, name, kinds, floor, active: true },
  place: floor,
}))

test('the usual bays stand clear of each other', () => {
  expect(overlaps(usual)).toEqual([])
})

test('bays in each other’s place are named', () => {
  const moved = usual.map((each, index) =>
    index === 1 ? { ...each, place: { ...each.place, x: 30 } } : each,
  )
  expect(overlaps(moved)).toEqual(['Bay 1 and Bay 2'])
})

test('a new bay is put where nothing stands', () => {
  const place = freePlace(usual)
  const [first] = usual
  expect(overlaps([...usual, { bay: first!.bay, place }])).toEqual([])
})

test('a bay stays on the floor and keeps a side of a metre', () => {
  expect(kept({ x: -8, y: 3.4, width: 2, height: 5_000 })).toEqual({ x: 0, y: 3, width: 10, height: 1_000 })
})

test('tenths of a metre are said in metres', () => {
  expect(metres(42)).toBe('4.2 m')
})
