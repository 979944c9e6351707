import type { CarState } from '../../car.ts'
import type { PlanInput } from '../plan-input.ts'
import type { PlanFault, PlannedWork } from '../plan.ts'
import type { Link } from '../problem.ts'
import { targetKey } from '../../value/target.ts'
import { frozenUntil } from '../frozen-days.ts'
import { circleFaults, unreachable } from './circles.ts'
import { type DraftCrew, draftCrew } from './crews.ts'
import { draftGraph, type DraftGraph } from './draft-graph.ts'
import { draftWork, type DraftWork } from './draft-work.ts'
import { type EarliestStart, earliestStarts } from './earliest.ts'
import { type NamedFault, namedFault, tellFaults } from './faults.ts'
import { type DraftFixtures, draftFixtures } from './fixtures.ts'
import { planFloor, type PlanFloor } from './floor-bays.ts'
import { lastPlannedDate } from './horizon.ts'
import { leftOut } from './left-out.ts'
import { type CarOfStand, movesWhileOpen, workElsewhere } from './moves-while-open.ts'
import { type PlanPeople, planPeople } from './people.ts'
import { placeCars, type PlacedCars } from './placed-cars.ts'
import { draftStands, type DraftStands } from './stands.ts'
import { createTickScale, type TickScale } from './tick-scale.ts'
import { impossibleFaults, otherwiseFaults } from './work-faults.ts'

/** All open work with what it needs, by numbers that still count what cannot be planned. */
export interface DraftPlan extends DraftGraph {
  readonly scale: TickScale
  /** Nothing is planned after this local date. */
  readonly lastDate: string
  readonly earliest: readonly (readonly EarliestStart[])[]
  readonly people: PlanPeople
  readonly crews: readonly DraftCrew[]
  readonly floor: PlanFloor
  /** Those with work to plan, then those that only have bays booked. */
  readonly cars: readonly CarState[]
  readonly placed: PlacedCars
  readonly stands: DraftStands
  readonly fixtures: DraftFixtures
  /** Of the cars' own links and of what the sides make of them. */
  readonly links: readonly Link[]
  readonly inForceOf: (work: DraftWork) => PlannedWork | null
  readonly frozenOf: (work: DraftWork) => PlannedWork | null
  /** What cannot be planned, with all that follows from it. */
  readonly out: ReadonlySet<number>
  readonly faults: readonly PlanFault[]
}

export function draftPlan(input: PlanInput): DraftPlan {
  const scale = createTickScale(input.workshop, input.now)
  const graph = draftGraph(draftWork(input))
  const { work } = graph
  const earliest = work.map((each) => earliestStarts(each, { workshop: input.workshop, scale }))
  const lastDate = lastPlannedDate(input, work, earliest, scale)
  const people = planPeople(input, scale, lastDate)
  const given = givenWork(input)
  const crews = work.map((each) =>
    draftCrew(each, { workshop: input.workshop, people, frozenOf: given.frozenOf }),
  )
  const floor = planFloor(input)
  const planned = [...new Set(work.map(({ car }) => car))]
  const booked = input.cars.filter((car) => !planned.includes(car) && car.bookings.size > 0)
  const placed = placeCars(planned, booked, floor, input, scale)
  const stands = draftStands(graph)
  const draft = {
    ...graph,
    scale,
    lastDate,
    earliest,
    people,
    crews,
    floor,
    cars: [...planned, ...booked],
    placed,
    stands,
    fixtures: draftFixtures(graph, input.workshop),
    links: [...graph.links, ...stands.links],
    ...given,
  }
  return { ...draft, ...judged(draft) }
}

/** What the plan in force has of each piece of work, at all and for the frozen days. */
function givenWork({ inForce, workshop, now }: PlanInput): Pick<DraftPlan, 'inForceOf' | 'frozenOf'> {
  const given = new Map(inForce?.work.map((each) => [`${each.carId} ${targetKey(each.target)}`, each]))
  const until = frozenUntil(workshop, now)
  const inForceOf = ({ car, key }: DraftWork): PlannedWork | null => given.get(`${car.id} ${key}`) ?? null
  return {
    inForceOf,
    frozenOf: (work) => {
      const each = inForceOf(work)
      return each !== null && until > now && each.start < until ? each : null
    },
  }
}

/** What is wrong with it, in words, and what has to be left out for it. */
function judged(draft: Omit<DraftPlan, 'out' | 'faults'>): Pick<DraftPlan, 'out' | 'faults'> {
  const { work, links, stands, placed, floor, scale, crews, people } = draft
  const numbers = new Map(work.map((each, index) => [each, index]))
  const circles = unreachable(work.length, links)
  const carOf = new Map<string, CarOfStand>(
    placed.cars.map((car, index) => [draft.cars[index]?.id ?? '', car]),
  )
  const standing = { floor, carOf }
  const impossible = [
    ...work.flatMap((each) => impossibleFaults(each, floor)),
    ...crews.flatMap((crew) => (crew.ok ? [] : [crew.fault])),
    ...draft.fixtures.faults,
    ...movesWhileOpen(work, links, stands.stands, standing),
    ...stuckFaults(draft),
  ]
  const otherwise = [
    ...work.flatMap((each) => otherwiseFaults(each, scale)),
    ...crews.flatMap((crew) => (crew.ok ? crew.faults : [])),
  ]
  const isShut = work.length > 0 && people.calendars.every(({ spans }) => spans.length === 0)
  const told = impossible.filter(({ code }) => !isShut || code !== 'no hours')
  const beginnings = impossible.flatMap((fault) => numbers.get(fault.work) ?? [])
  return {
    out: leftOut([...circles, ...beginnings], work.length, links, stands, (id) =>
      workElsewhere(work, id, standing),
    ),
    faults: [
      ...(isShut ? [shutFault(draft)] : []),
      ...circleFaults(draft, links, circles),
      ...tellFaults([...told, ...otherwise]),
      ...placed.faults,
    ],
  }
}

/** An open side that cannot close before another one is opened, which it keeps shut. */
const stuckFaults = ({
  stands: { stands, stuck },
  work,
}: Pick<DraftPlan, 'stands' | 'work'>): readonly NamedFault[] =>
  stuck.flatMap(([open, other]) => {
    const [a, b] = [stands[open], stands[other]]
    const closing = a === undefined ? undefined : work[a.until]
    if (a === undefined || b === undefined || closing === undefined) return []
    const words = `to come after ${b.repair.plan.name} on another side, which cannot be opened while ${a.repair.plan.name} stands open`
    const next =
      'Lift the support hold for both by saying how the shell is held, or take out the link between them.'
    return [namedFault(closing, 'circle', b.repair.id, words, next)]
  })

const shutFault = ({ scale, lastDate }: Pick<DraftPlan, 'scale' | 'lastDate'>): PlanFault => ({
  code: 'no hours',
  carId: null,
  words: `Nobody has any working hours before ${scale.words(lastDate)}, so nothing can be planned.`,
  next: 'Give the workshop working hours under Workshop, Calendar.',
})
