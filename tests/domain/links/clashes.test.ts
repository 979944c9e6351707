import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { linkClash, type LinkGraph, type LinkNode } from '../../../domain/links/clashes.ts'
import type { RepairId } from '../../../domain/ids.ts'
import { repairId } from '../../support/car-builder.ts'
import { hasNoDeadEnd, hasOrder, workOn, type WorkCase } from '../../support/order-search.ts'

/** A slice in every run; PANELWRIGHT_CASES=12000 for the whole. */
const CASES = Number(process.env['PANELWRIGHT_CASES'] ?? 1200)

const node = (name: string, over: Partial<LinkNode> = {}): LinkNode => ({
  id: repairId(name),
  name,
  side: 'left',
  loadBearing: true,
  finished: false,
  closed: false,
  open: false,
  primed: false,
  needsFitUp: true,
  ...over,
})

const graph = (
  nodes: readonly LinkNode[],
  covers: readonly (readonly [string, string])[] = [],
  groups: readonly (readonly string[])[] = [],
  lifted: readonly string[] = [],
): LinkGraph => ({
  nodes: new Map(nodes.map((each) => [each.id, each])),
  covers: covers.map(([over, under]) => ({ over: repairId(over), under: repairId(under) })),
  groups: groups.map((members, index) => ({ name: `opening ${index + 1}`, members: members.map(repairId) })),
  isLifted: (a, b) => lifted.map(repairId).includes(a) && lifted.map(repairId).includes(b),
})

describe('links that no order of work can satisfy', () => {
  test('covers that make a circle are named with the shortest circle', () => {
    const clash = linkClash(
      graph(
        ['A', 'B', 'C', 'D'].map((name) => node(name)),
        [
          ['A', 'B'],
          ['B', 'C'],
          ['C', 'A'],
          ['C', 'D'],
          ['D', 'C'],
        ],
      ),
    )
    expect(clash).toMatchObject({ kind: 'circle', repairs: [repairId('C'), repairId('D')] })
    expect(clash?.words).toBe('These cover each other in a circle: C covers D covers C.')
  })

  test('a load-bearing repair of one side cannot cover one of the other side', () => {
    const clash = linkClash(graph([node('valance'), node('leg', { side: 'right' })], [['valance', 'leg']]))
    expect(clash).toMatchObject({ kind: 'support', repairs: [repairId('valance'), repairId('leg')] })
    expect(clash?.frees).toContain('Lift the support hold for valance and leg')
  })

  test('two covers of one repair must be open together', () => {
    const nodes = [
      node('left skin'),
      node('right skin', { side: 'right' }),
      node('tray', { loadBearing: false }),
    ]
    expect(
      linkClash(
        graph(nodes, [
          ['left skin', 'tray'],
          ['right skin', 'tray'],
        ]),
      )?.kind,
    ).toBe('support')
  })

  test('what covers a member of a fit group must be open when the group is offered up', () => {
    const nodes = [
      node('left sill'),
      node('foot', { loadBearing: false }),
      node('right post', { side: 'right' }),
    ]
    expect(linkClash(graph(nodes, [['left sill', 'foot']], [['foot', 'right post']]))?.kind).toBe('support')
  })

  test('the centre counts as a third side', () => {
    const nodes = [node('left sill'), node('tunnel', { side: 'centre' })]
    expect(linkClash(graph(nodes, [], [['left sill', 'tunnel']]))?.kind).toBe('support')
  })

  test('a lift of the support hold frees the pair that it names', () => {
    const nodes = [node('valance'), node('leg', { side: 'right' })]
    expect(linkClash(graph(nodes, [['valance', 'leg']], [], ['valance', 'leg']))).toBeNull()
  })

  test('two sides that need not be open together do not clash', () => {
    expect(linkClash(graph([node('left sill'), node('right sill', { side: 'right' })]))).toBeNull()
  })

  test('a finished repair needs nothing open any more', () => {
    const done = { finished: true, closed: true, needsFitUp: false }
    const nodes = [node('valance', done), node('leg', { side: 'right', ...done })]
    expect(linkClash(graph(nodes, [['valance', 'leg']]))).toBeNull()
  })
})

describe('against exhaustive search', () => {
  test('links clash exactly when no order of work exists, from wherever the car stands', () => {
    const verdicts = { circle: 0, support: 0, free: 0 }
    fc.assert(
      fc.property(workCase, (work) => {
        const clash = linkClash(work.graph)
        verdicts[clash?.kind ?? 'free'] += 1
        expect(clash?.kind === 'circle').toBe(hasCircle(work.graph))
        if (clash?.kind !== 'circle') expect(hasOrder(work)).toBe(clash === null)
      }),
      { numRuns: CASES, seed: 20_261_125 },
    )
    for (const count of Object.values(verdicts)) expect(count).toBeGreaterThan(CASES / 50)
  })

  test('without a clash no order of work that the holds allow ends in a dead end', () => {
    fc.assert(
      fc.property(workCase, (work) => {
        if (linkClash(work.graph) !== null || isClosedOverUnfinished(work)) return
        const mayOpen = (state: readonly number[], index: number) =>
          linkClash(graphAt(work, state.with(index, 1))) === null
        expect(hasNoDeadEnd(work, mayOpen)).toBe(true)
      }),
      { numRuns: CASES / 4, seed: 20_261_126 },
    )
  })
})

/** Takes away repairs that cover nothing that is left, until none is left or only circles are. */
const hasCircle = (links: LinkGraph): boolean => {
  const left = new Set(links.nodes.keys())
  const coversNothing = (id: RepairId) =>
    !links.covers.some((cover) => cover.over === id && left.has(cover.under))
  for (let free = [...left].find(coversNothing); free !== undefined; free = [...left].find(coversNothing))
    left.delete(free)
  return left.size > 0
}

const graphAt = (work: WorkCase, state: readonly number[]): LinkGraph => ({
  ...work.graph,
  nodes: new Map(
    work.ids.map((id, index) => [id, standing(work.graph.nodes.get(id)!, state[index]!)] as const),
  ),
})

const NAMES = ['A', 'B', 'C', 'D', 'E']

/** Up to 5 repairs, random covers (half of them without circles), 2 fit groups, worked on for a while before the last links come. */
const workCase: fc.Arbitrary<WorkCase> = fc
  .record({
    size: fc.integer({ min: 2, max: 5 }),
    sides: fc.array(fc.constantFrom('left' as const, 'right' as const, 'centre' as const), {
      minLength: 5,
      maxLength: 5,
    }),
    bearing: fc.array(fc.boolean(), { minLength: 5, maxLength: 5 }),
    covers: fc.array(fc.tuple(fc.nat(4), fc.nat(4)), { maxLength: 6 }),
    mayCircle: fc.boolean(),
    groups: fc.array(fc.array(fc.nat(4), { minLength: 1, maxLength: 4 }), { maxLength: 2 }),
    lifted: fc.array(fc.nat(4), { maxLength: 3 }),
    worked: fc.array(fc.nat(20), { maxLength: 20 }),
    late: fc.nat(3),
  })
  .map(({ size, sides, bearing, covers, mayCircle, groups, lifted, worked, late }) => {
    const names = NAMES.slice(0, size)
    const inside = (index: number) => index < size
    const pairs = covers
      .filter(([a, b]) => inside(a) && inside(b) && (mayCircle ? a !== b : a < b))
      .map(([a, b]) => [NAMES[a]!, NAMES[b]!] as const)
    const members = groups.map((group) => [...new Set(group.filter(inside))].map((index) => NAMES[index]!))
    const liftedNames = lifted.filter(inside).map((index) => NAMES[index]!)
    const fresh = names.map((name, index) =>
      node(name, { side: sides[index]!, loadBearing: bearing[index]! }),
    )
    const before = graph(fresh, pairs.slice(0, Math.max(0, pairs.length - late)), members, liftedNames)
    const ids = names.map(repairId)
    const untouched: WorkCase = { graph: before, ids, start: ids.map(() => 0) }
    const start = workOn(untouched, worked)
    const stood = fresh.map((each, index) => standing(each, start[index]!))
    return { graph: graph(stood, pairs, members, liftedNames), ids, start }
  })

const standing = (each: LinkNode, stage: number): LinkNode => ({
  ...each,
  finished: stage === 5,
  closed: stage >= 4,
  open: stage >= 1 && stage <= 3,
  primed: stage >= 2,
  needsFitUp: stage < 3,
})

/** Welded metal over unfinished work: the way forward begins with reopening, which the dead-end search leaves out. */
const isClosedOverUnfinished = ({ graph: links, ids, start }: WorkCase): boolean => {
  const stage = (id: RepairId) => start[ids.indexOf(id)] ?? 0
  return links.covers.some((cover) => stage(cover.over) >= 4 && stage(cover.under) < 5)
}
