import type { CarState } from '../../car.ts'
import { FEW_FIXTURES, type FewFixture } from '../../facts/plan-facts.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { Problem, ResourceSpan } from '../problem.ts'
import type { DraftGraph } from './draft-graph.ts'
import { gatesToClose } from './draft-work.ts'
import { type NamedFault, namedFault } from './faults.ts'

/** Jigs, rotisseries and dollies where there are only so many, by numbers of drafted work. */
export interface DraftFixtures {
  readonly resources: Problem['resources']
  readonly spans: readonly ResourceSpan[]
  /** Work that cannot be done for want of one. */
  readonly faults: readonly NamedFault[]
}

/** A shell takes its fixture from the first open gate of its load-bearing repairs to the last one up to welded. */
export function draftFixtures(graph: DraftGraph, { fixtures }: WorkshopState): DraftFixtures {
  const limited = FEW_FIXTURES.filter((fixture) => fixtures[fixture] !== null)
  const left = new Map(limited.map((fixture) => [fixture, fixtures[fixture] ?? 0]))
  const spans: ResourceSpan[] = []
  const faults: NamedFault[] = []
  const uses = [...new Set(graph.work.map(({ car }) => car))]
    .map((car) => useOf(car, graph))
    .filter((use) => use !== null)
    .toSorted((a, b) => Number(b.held) - Number(a.held))
  for (const { fixture, held, activities } of uses) {
    const free = left.get(fixture)
    if (free === undefined || activities.length === 0) continue
    if (fixtures[fixture] === 0 || (held && free === 0)) {
      faults.push(...activities.map((index) => noFixture(graph, index, fixture, held)))
      continue
    }
    if (held) left.set(fixture, free - 1)
    spans.push({ resource: limited.indexOf(fixture), amount: 1, activities, held })
  }
  return {
    resources: limited.map((fixture) => ({ capacity: fixtures[fixture] ?? 0 })),
    spans,
    faults,
  }
}

interface FixtureUse {
  readonly fixture: FewFixture
  readonly held: boolean
  readonly activities: readonly number[]
}

/** What it stands on now counts where nothing is planned. */
function useOf(car: CarState, { find }: DraftGraph): FixtureUse | null {
  const stands = FEW_FIXTURES.find((fixture) => fixture === car.standing?.fixture)
  const fixture = car.fixturePlanned ?? stands
  if (fixture === undefined) return null
  const activities = [...car.repairs.values()]
    .filter(({ plan, retired }) => plan.loadBearing && plan.on === 'shell' && retired === null)
    .flatMap((repair) => gatesToClose(repair).flatMap((gate) => find(car.id, `${repair.id}/${gate}`) ?? []))
  return { fixture, held: stands === fixture, activities }
}

function noFixture({ work }: DraftGraph, index: number, fixture: FewFixture, held: boolean): NamedFault {
  const words = held
    ? `the shell stands on a ${fixture}, but more shells do than the workshop has`
    : `planned on a ${fixture}, and the workshop has none`
  const next = `Say under Workshop, Planning how many there are, or plan another fixture for the car.`
  return namedFault(work[index] as DraftGraph['work'][number], 'no fixture', fixture, words, next)
}
