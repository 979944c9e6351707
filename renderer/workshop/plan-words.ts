import { sectionAsBuilt } from '../../domain/drawing/section-as-built.ts'
import type { GatePlan, RepairPlan } from '../../domain/facts/shapes.ts'
import type { LayerId } from '../../domain/ids.ts'
import { gateOrder } from '../../domain/gates.ts'
import { fixed, plural } from '../../domain/text/words.ts'
import { expectedHours } from '../../domain/value/estimated-hours.ts'
import type { SectionView } from '../../domain/views/shared-views.ts'

/** A layer of a plan; in a form its id is not checked yet. */
type DrawnLayer = Omit<RepairPlan['layers'][number], 'layerId'> & { readonly layerId: string }

/** The section of a type: sound metal, closed, as it is built; what is found stands on each car's own repair. */
export function planSection({ layers }: { readonly layers: readonly DrawnLayer[] }): SectionView {
  return sectionAsBuilt(
    layers.map(({ layerId, name, thicknessMm, loadBearing }, index) => ({
      id: layerId as LayerId,
      name,
      thicknessMm,
      loadBearing,
      closing: index === layers.length - 1,
      grade: 'sound',
    })),
  )
}

/** '3 layers, 9.5 to 24.0 h, load-bearing' */
export function planWords(plan: RepairPlan): string {
  const sum = (point: 'shortest' | 'longest') =>
    Object.values(plan.gates).reduce((total, gate) => total + gate.hours[point], 0)
  return [
    plural('layer', plan.layers.length),
    `${fixed(sum('shortest'), 1)} to ${fixed(sum('longest'), 1)} h`,
    ...(plan.loadBearing ? ['load-bearing'] : []),
    ...(plan.on === 'part' ? ['off the car'] : []),
  ].join(', ')
}

export const planHours = (plan: RepairPlan): number =>
  gateOrder(plan).reduce((sum, gate) => sum + expectedHours(plan.gates[gate].hours), 0)

/** What a gate asks for besides its signature, in words. */
export function asksWords({ asks }: GatePlan): readonly string[] {
  const { conditions } = asks
  return [
    ...(asks.safety ? ['shell safe'] : []),
    ...(asks.photosBefore > 0 ? [`${plural('photo', asks.photosBefore)} before`] : []),
    ...(asks.photos > 0 ? [plural('photo', asks.photos)] : []),
    ...(asks.layerPhotos === 'none' ? [] : [`a photo of each ${asks.layerPhotos} layer`]),
    ...(asks.review ? ['the estimate reviewed'] : []),
    ...(asks.drains ? ['drains checked'] : []),
    ...(conditions === null ? [] : [`conditions, steel ${conditions.minMarginC} °C above the dew point`]),
    ...(asks.fitUp ? ['fit-up and gaps'] : []),
    ...(asks.dimensions ? ['dimensions read'] : []),
    ...(asks.welds ? ['welds counted'] : []),
    ...(asks.secondSignature ? ['a second signature'] : []),
  ]
}

/** What else holds for a gate: who, where, how long it waits. */
export function gateTerms(gate: GatePlan): readonly string[] {
  return [
    gate.people > 1 ? `${gate.people} with ${gate.skill}` : gate.skill,
    gate.bayKind,
    ...(gate.hotWork ? ['hot work'] : []),
    ...(gate.cureHours > 0 ? [`cures ${gate.cureHours} h`] : []),
    ...(gate.window === null ? [] : [`within ${gate.window.hours} h of ${gate.window.after}`]),
  ]
}

export const weldWords = ({ kind, planned }: RepairPlan['welds'][number]): string =>
  kind === 'seam' ? `seam, ${planned} mm` : plural(kind, planned)
