import { describe, expect, it } from 'vitest'
import { planFromType } from '../../domain/catalogue/type-plan.ts'
import { startingCatalogue } from '../../domain/catalogue.ts'
import { usualBays, usualSkills } from '../../domain/usual-workshop.ts'
import { planRefusal } from '../../domain/commands/plan-problems.ts'
import { repairPlanSchema } from '../../domain/facts/shapes.ts'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import { gateOrder, GATES } from '../../domain/gates.ts'
import { repairIdSchema } from '../../domain/ids.ts'
import { isStorage } from '../../domain/workshop.ts'

const types = startingCatalogue.map((type) => [type.plan.name, type] as const)

describe('the starting catalogue', () => {
  it('has about twenty types with names and ids of their own', () => {
    expect(startingCatalogue.length).toBeGreaterThanOrEqual(20)
    expect(new Set(startingCatalogue.map(({ typeId }) => typeId)).size).toBe(startingCatalogue.length)
    expect(new Set(startingCatalogue.map(({ plan }) => plan.name.toLowerCase())).size).toBe(
      startingCatalogue.length,
    )
  })

  it('reaches every place of the shell, and parts off the car', () => {
    const places = new Set(startingCatalogue.map(({ plan }) => plan.zone.place))
    expect([...places].sort()).toEqual(['front', 'middle', 'rear'])
    expect(startingCatalogue.some(({ plan }) => plan.on === 'part')).toBe(true)
  })

  it.each(types)('%s is a plan that can be saved', (_name, { plan }) => {
    expect(repairPlanSchema.safeParse(plan).error).toBeUndefined()
    expect(planRefusal(plan)).toBeNull()
  })

  it.each(types)('%s asks only for skills and bays that a workshop starts with', (_name, { plan }) => {
    const kinds = new Set([...usualBays.flatMap((bay) => bay.kinds), 'bench'])
    for (const gate of GATES) {
      expect(usualSkills).toContain(plan.gates[gate].skill)
      expect(kinds).toContain(plan.gates[gate].bayKind)
      expect(plan.gates[gate].bayKind === 'bench').toBe(plan.on === 'part')
    }
  })

  it.each(types)(
    '%s has real hours on every gate, and a window that can still be kept after curing',
    (_name, { plan }) => {
      for (const gate of GATES) {
        const { hours, window } = plan.gates[gate]
        expect(hours.shortest).toBeGreaterThan(0)
        expect(hours.likely).toBeLessThanOrEqual(hours.longest)
        if (!window) continue
        const order = gateOrder(plan)
        const between = order.slice(order.indexOf(window.after), order.indexOf(gate))
        const curing = between.reduce((sum, each) => sum + plan.gates[each].cureHours, 0)
        expect(curing).toBeLessThan(window.hours)
      }
    },
  )

  it('reads reference dimensions on load-bearing types only', () => {
    for (const { plan } of startingCatalogue) expect(plan.gates.welded.asks.dimensions).toBe(plan.loadBearing)
  })

  it('leaves its plans unlike each other in id when two repairs are made of one type', () => {
    const plan = startingCatalogue.find((type) => type.plan.parts.length > 0)?.plan
    if (!plan) throw new Error('No type of the catalogue needs a part.')
    const copy = (id: string) =>
      planFromType(plan, {
        repairId: repairIdSchema.parse(id),
        name: 'Sill, left',
        zone: { side: 'left', place: 'middle' },
      })
    const idsOf = ({ layers, welds, parts }: typeof plan) => [
      ...layers.map((each) => each.layerId),
      ...welds.map((each) => each.jointId),
      ...parts.map((each) => each.partId),
    ]
    const ids = [...idsOf(plan), ...idsOf(copy('repair-one')), ...idsOf(copy('repair-two'))]
    expect(new Set(ids).size).toBe(ids.length)
    expect(copy('repair-one')).toMatchObject({ name: 'Sill, left', zone: { side: 'left', place: 'middle' } })
    expect(planRefusal(copy('repair-one'))).toBeNull()
  })
})

describe('the usual bays', () => {
  it('are six bays and a yard that can be added as they stand', () => {
    for (const bay of usualBays) expect(workshopFacts.bayAdded.safeParse(bay).error).toBeUndefined()
    expect(usualBays.filter((bay) => !isStorage(bay))).toHaveLength(6)
    expect(usualBays.filter(isStorage)).toHaveLength(1)
  })

  it('do not lie over each other on the floor', () => {
    for (const [n, { floor: a }] of usualBays.entries())
      for (const { floor: b } of usualBays.slice(n + 1)) {
        const apart =
          a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y
        expect(apart).toBe(true)
      }
  })
})
