import { usualSkills } from '../../domain/usual-workshop.ts'
import { BAY_KINDS } from '../../domain/facts/workshop-facts.ts'
import { GATES } from '../../domain/gates.ts'
import type { RepairTypeView, Workshop } from './workshop-shapes.ts'

/** The workshop's own list of skills: what its people and its repair types name, and the usual ones. */
export const knownSkills = (
  { people }: Pick<Workshop, 'people'>,
  types: readonly RepairTypeView[] = [],
): readonly string[] =>
  unique([
    ...usualSkills,
    ...people.flatMap(({ skills }) => skills),
    ...types.flatMap(({ plan }) => GATES.map((gate) => plan.gates[gate].skill)),
  ])

/** The same of bay kinds; work on a part off the car is done at a bench. */
export const knownBayKinds = (
  { bays }: Pick<Workshop, 'bays'>,
  types: readonly RepairTypeView[] = [],
): readonly string[] =>
  unique([
    ...BAY_KINDS,
    ...bays.flatMap(({ kinds }) => kinds),
    ...types.flatMap(({ plan }) => GATES.map((gate) => plan.gates[gate].bayKind)),
  ])

const unique = (words: readonly string[]): readonly string[] => [...new Set(words)]
