import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { usualBays } from '../../../domain/usual-workshop.ts'
import { drawFloorPlan, type FloorBay } from '../../../domain/drawing/floor-plan-drawing.ts'

const bays: readonly FloorBay[] = usualBays.map(({ bayId, kinds, floor }) => ({
  id: bayId,
  kinds,
  storage: kinds.includes('storage'),
  floor,
  cars: [],
}))
const withCars = (count: number): readonly FloorBay[] =>
  bays.map((bay) => ({
    ...bay,
    cars: Array.from({ length: bay.storage ? count : 1 }, (_, index) => ({ carId: `${bay.id}-${index}` })),
  }))

describe('the plan of the floor', () => {
  test('keeps the bays where the manager put them, at one scale', () => {
    const { bays: drawn, scale } = drawFloorPlan(bays, 1000)
    for (const [index, bay] of drawn.entries()) {
      expect(bay.width).toBeCloseTo((bays[index]?.floor.width ?? 0) * scale)
      expect(bay.x - (drawn[0]?.x ?? 0)).toBeCloseTo(
        ((bays[index]?.floor.x ?? 0) - (bays[0]?.floor.x ?? 0)) * scale,
      )
    }
  })

  test('draws cars nose up in upright bays and lying in wide ones', () => {
    const drawn = drawFloorPlan(withCars(1), 1000).bays
    expect(drawn.find(({ id }) => id === 'bay-1-metalwork')?.cars[0]?.isUpright).toBe(true)
    expect(drawn.find(({ id }) => id === 'bay-6-booth')?.cars[0]?.isUpright).toBe(false)
  })

  test('gives a booth walls of its own', () => {
    const walled = drawFloorPlan(bays, 1000).bays.filter(({ hasWalls }) => hasWalls)
    expect(walled.map(({ id }) => id)).toEqual(['bay-6-booth'])
  })

  test('draws a floor without bays', () => {
    expect(drawFloorPlan([], 800)).toMatchObject({ width: 800, bays: [] })
  })

  test('keeps every car inside its bay and apart from its words, however many stand in the yard', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 12 }), fc.integer({ min: 760, max: 1800 }), (count, width) => {
        for (const bay of drawFloorPlan(withCars(count), width).bays) {
          for (const car of bay.cars) {
            const [across, along] = car.isUpright ? [car.width, car.length] : [car.length, car.width]
            expect(car.x).toBeGreaterThanOrEqual(bay.x)
            expect(car.x + across).toBeLessThanOrEqual(bay.x + bay.width + 0.01)
            expect(car.y + along).toBeLessThanOrEqual(bay.y + bay.height + 0.01)
            const isApart = car.isUpright ? car.words.y >= car.y + along : car.words.x >= car.x + across
            expect(isApart).toBe(true)
          }
        }
      }),
      { numRuns: 100, seed: 20261125 },
    )
  })

  test('says where words do not fit: twenty bays in a row, and not the usual ones', () => {
    const floor = { x: 0, y: 0, width: 30, height: 60 }
    const many = Array.from({ length: 20 }, (_, index) => ({
      id: `bay-${index}`,
      kinds: ['metalwork'],
      storage: false,
      floor: { ...floor, x: index * 34 },
      cars: [],
    }))
    expect(drawFloorPlan(many, 1200).hasRoomForWords).toBe(false)
    expect(drawFloorPlan(withCars(1), 1000).hasRoomForWords).toBe(true)
  })

  test('sets the doors into a stretch of the lower wall that no bay stands against', () => {
    const { doors, bays: drawn, walls } = drawFloorPlan(bays, 1000)
    const reach = (doors.to - doors.from) / 2
    const inTheWay = drawn.filter(
      (bay) =>
        bay.y + bay.height > walls.y + walls.height - reach &&
        bay.x < doors.to &&
        bay.x + bay.width > doors.from,
    )
    expect(inTheWay.map(({ id }) => id)).toEqual([])
  })
})
