import type { CarState, VariationState, VisitState } from '../car.ts'
import { PAYERS, type Payer, type WorkTarget } from '../facts/shapes.ts'
import { targetKey } from '../value/target.ts'
import { localDateOf } from '../time/zone.ts'

/** Hours of one gate or task that one payer has agreed to, or is asked to. */
export interface AgreedHours {
  readonly target: WorkTarget
  readonly payer: Payer
  /** Person-hours; below 0 for less work. */
  readonly hours: number
  /** Local date of the agreement; null while it waits. */
  readonly agreed: string | null
  /** The first figure of an estimate line, for ever; 0 for variations. */
  readonly baseline: number
}

/**
 * The estimate lines of a visit and the parts of its variations, by target key. Work that the workshop pays for after its
 * payer declined it is the workshop's. What was declined and not paid for by the workshop is left out.
 */
export function agreedHours(
  car: CarState,
  visit: VisitState,
  zone: string,
): ReadonlyMap<string, readonly AgreedHours[]> {
  const lines = [...visit.lines.values()].map(
    ({ target, payer, agreed, moved, accepted, baseline }): AgreedHours => ({
      target,
      payer,
      hours: agreed + moved,
      agreed: accepted === null ? null : localDateOf(accepted.happened, zone),
      baseline: baseline.agreed,
    }),
  )
  const varied = [...car.variations.values()].flatMap((variation): readonly AgreedHours[] => {
    const standing = variation.visitId === visit.id ? variationStanding(variation, zone) : null
    if (standing === null) return []
    return variation.lines.map(({ target, hours }) => ({ target, hours, ...standing, baseline: 0 }))
  })
  return Map.groupBy([...lines, ...varied], ({ target }) => targetKey(target))
}

/** Who a variation is or would be paid by, and since when; null for one that is not carried out. */
export function variationStanding(
  {
    status,
    payer,
    raised,
    decided,
    settled,
  }: Pick<VariationState, 'status' | 'payer' | 'raised' | 'decided' | 'settled'>,
  zone: string,
): { readonly payer: Payer; readonly agreed: string | null } | null {
  switch (status) {
    case 'raised':
      return { payer, agreed: null }
    case 'accepted':
      return { payer, agreed: localDateOf((decided ?? raised).happened, zone) }
    case 'workshop pays':
      return { payer: 'workshop', agreed: localDateOf((settled ?? raised).happened, zone) }
    case 'declined':
    case 'less work':
    case 'stopped':
      return null
  }
}

/** How the hours spent on a gate or task are shared by its payers; proportions of whatever sum, none below 0. */
export type PayerShares = readonly (readonly [payer: Payer, share: number])[]

/**
 * By what each has authorised of it, else by what each is asked for, else all to the payer that its repair or task names.
 */
export function payerShares(car: CarState, target: WorkTarget, agreed: readonly AgreedHours[]): PayerShares {
  return (
    sharesBy(agreed.filter((each) => each.agreed !== null)) ??
    sharesBy(agreed) ?? [[namedPayer(car, target), 1]]
  )
}

function sharesBy(agreed: readonly AgreedHours[]): PayerShares | null {
  const shares = PAYERS.flatMap((payer) => {
    const hours = agreed.reduce((sum, each) => (each.payer === payer ? sum + each.hours : sum), 0)
    return hours > 0 ? [[payer, hours] as const] : []
  })
  return shares.length === 0 ? null : shares
}

const namedPayer = (car: CarState, target: WorkTarget): Payer =>
  (target.kind === 'gate'
    ? car.repairs.get(target.repairId)?.payer
    : car.tasks.get(target.taskId)?.plan.payer) ?? 'owner'
