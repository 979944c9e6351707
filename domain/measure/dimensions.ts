import { fixed } from '../text/words.ts'
import { asRead, toHundredths } from './judgement.ts'

export type ShellStood = 'wheels' | 'jig' | 'rotisserie' | 'stands' | 'dolly'

export interface DimensionReading {
  readonly mm: number
  readonly stood: ShellStood
  readonly doorsHung: boolean
}

/** A door-aperture diagonal or a chosen datum distance. */
export interface ReferenceDimension {
  readonly asFound: DimensionReading
  /** As found, unless the manager corrected it; it holds for a shell that stands as it did when found. */
  readonly targetMm: number
  /** Largest drift from the target, either way. */
  readonly limitMm: number
}

export type DimensionComparison =
  | {
      readonly kind: 'comparable'
      /** Reading minus target. */
      readonly driftMm: number
      readonly inside: boolean
      /** The drift in words, with the limit when it is passed. */
      readonly words: string
    }
  | { readonly kind: 'not comparable'; readonly reason: string }

/**
 * Customary limits in mm, overwritten per dimension. Datum points of unibody shells: 3 (I-CAR); apertures: 2, common
 * practice, no source.
 */
export const DEFAULT_LIMIT_MM = { datum: 3, aperture: 2 } as const

/** Drift from the target, judged only where the shell stands as it did as found: a hung door or a jig moves the figures. */
export function compareDimension(
  reference: ReferenceDimension,
  reading: DimensionReading,
): DimensionComparison {
  const { asFound, targetMm, limitMm } = reference
  if (![reading.mm, targetMm, limitMm].every(Number.isFinite)) {
    return { kind: 'not comparable', reason: 'a figure is missing; read the dimension again' }
  }
  if (reading.stood !== asFound.stood || reading.doorsHung !== asFound.doorsHung) {
    const reason = `read ${standingWords(reading)}, as found ${standingWords(asFound)}; read it again as it was found`
    return { kind: 'not comparable', reason }
  }
  const driftMm = reading.mm - targetMm
  const inside = toHundredths(Math.abs(driftMm)) <= toHundredths(limitMm)
  const words = driftWords(driftMm, targetMm)
  return {
    kind: 'comparable',
    driftMm,
    inside,
    words: inside ? words : `${words}; at most ${asRead(limitMm)} mm is allowed`,
  }
}

/** 'on wheels with doors hung', 'on the jig without doors'. */
export function standingWords({ stood, doorsHung }: Omit<DimensionReading, 'mm'>): string {
  const on = stood === 'wheels' || stood === 'stands' ? `on ${stood}` : `on the ${stood}`
  return doorsHung ? `${on} with doors hung` : `${on} without doors`
}

function driftWords(driftMm: number, targetMm: number): string {
  const size = asRead(Math.abs(driftMm))
  const target = `the target of ${fixed(targetMm, 1)} mm`
  if (size === '0') return `on ${target}`
  return `${size} mm ${driftMm > 0 ? 'over' : 'under'} ${target}`
}
