import type { CarState } from '../car.ts'
import { fact } from '../facts.ts'
import type { RepairPlan } from '../facts/shapes.ts'
import type { RepairId } from '../ids.ts'
import { linkClash, linkGraphOf, linkNodeOf, type LinkGraph } from '../links/clashes.ts'
import { refuse } from '../refusal.ts'
import {
  findRepair,
  firstRefusal,
  onCar,
  record,
  refuseIf,
  unknownRepairs,
  type Decider,
  type Refused,
} from './deciders.ts'

type LinkKind = 'linkCover' | 'unlinkCover' | 'setFitGroup' | 'dissolveFitGroup'

export const linkDeciders: { readonly [K in LinkKind]: Decider<K> } = {
  linkCover: onCar((link, { car }) => {
    const over = findRepair(car, link.over)
    const under = findRepair(car, link.under)
    if (!over.ok) return over
    if (!under.ok) return under
    return (
      firstRefusal(
        refuseIf(
          hasLink(car, link),
          'already',
          `${over.value.plan.name} covers it already.`,
          'Nothing to do.',
        ),
        coverRefusal(car, link.over),
        clashRefusal(graphWith(car, { added: [], links: [link] })),
      ) ?? record(fact('coverLinked', link))
    )
  }),

  unlinkCover: onCar(
    (payload, { car }) =>
      refuseIf(!hasLink(car, payload), 'unknown', 'This link is not there any more.', 'Reload the car.') ??
      record(fact('coverUnlinked', payload)),
  ),

  setFitGroup: onCar((payload, { car }) => {
    return (
      firstRefusal(
        unknownRepairs(car, payload.members),
        refuseIf(
          new Set(payload.members).size !== payload.members.length,
          'bad-input',
          'A repair is named twice.',
          'Name each repair once.',
        ),
        refuseIf(
          new Set(payload.edges.map((edge) => edge.edgeId)).size !== payload.edges.length,
          'bad-input',
          'Two edges have the same id.',
          'Reload the screen and try again.',
        ),
        clashRefusal(graphWith(car, { added: [], links: [], group: payload })),
      ) ?? record(fact('fitGroupSet', payload))
    )
  }),

  dissolveFitGroup: onCar(
    (payload, { car }) =>
      refuseIf(
        !car.fitGroups.has(payload.groupId),
        'unknown',
        'This fit group is not there any more.',
        'Reload the car.',
      ) ?? record(fact('fitGroupDissolved', payload)),
  ),
}

const hasLink = (car: CarState, link: { readonly over: RepairId; readonly under: RepairId }): boolean =>
  car.covers.some((cover) => cover.over === link.over && cover.under === link.under)

/** A repair that covers another must be opened and welded: those gates cannot be 'not needed' on it. */
export const coverRefusal = (car: CarState, over: RepairId): Refused | null => {
  const repair = car.repairs.get(over)
  const skipped = (['opened', 'welded'] as const).find((gate) => repair?.gates[gate].status === 'not needed')
  return refuseIf(
    skipped !== undefined,
    'under-cover',
    `On ${repair?.plan.name} ${skipped} is marked not needed, so it cannot cover anything.`,
    `Reopen ${skipped} on it first.`,
  )
}

/** Names the smallest clash and what would free it. */
export const clashRefusal = (graph: LinkGraph): Refused | null => {
  const clash = linkClash(graph)
  if (!clash) return null
  return refuse(clash.kind === 'circle' ? 'circle' : 'no-order-of-work', clash.words, clash.frees)
}

interface GraphChange {
  /** New repairs, or repairs with a new plan; `groupsLike` joins them to the fit groups of another. */
  readonly added: readonly {
    readonly id: RepairId
    readonly plan: RepairPlan
    readonly groupsLike?: RepairId
  }[]
  readonly links: readonly { readonly over: RepairId; readonly under: RepairId }[]
  readonly group?: { readonly groupId: string; readonly name: string; readonly members: readonly RepairId[] }
  readonly without?: RepairId
  /** With `without`: the repair that takes its places in fit groups. */
  readonly groupsOf?: RepairId
}

/** The car's links as they would be after a change. */
export const graphWith = (car: CarState, change: GraphChange): LinkGraph => {
  const now = linkGraphOf(car)
  const nodes = new Map(now.nodes)
  for (const { id, plan } of change.added) nodes.set(id, linkNodeOf(id, plan, car.repairs.get(id)))
  if (change.without) nodes.delete(change.without)
  const links = change.without ? change.links.filter(isNoLoop) : [...now.covers, ...change.links]
  return { ...now, nodes, covers: links, groups: groupsWith(car, change) }
}

const isNoLoop = (link: { readonly over: RepairId; readonly under: RepairId }): boolean =>
  link.over !== link.under

const groupsWith = (car: CarState, { added, group, without, groupsOf }: GraphChange): LinkGraph['groups'] => {
  const groups = [...car.fitGroups.values()]
    .filter((each) => each.id !== group?.groupId)
    .map(({ plan }) => ({
      name: plan.name,
      members: plan.members.flatMap((id) => [
        id === without && groupsOf ? groupsOf : id,
        ...added.filter((each) => each.groupsLike === id).map((each) => each.id),
      ]),
    }))
  return group ? [...groups, group] : groups
}
