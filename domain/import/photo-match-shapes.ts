import type { Moment } from '../car.ts'
import type { WorkTarget } from '../facts/shapes.ts'
import type { PhotoServes } from '../facts/work-facts.ts'
import type { Gate } from '../gates.ts'
import type { CarId, LayerId, RepairId } from '../ids.ts'

/** What a camera's clock showed: 'YYYY-MM-DDTHH:MM:SS', and its UTC offset ('+01:00') where the camera says one. */
export interface CameraTime {
  readonly local: string
  readonly offset: string | null
}

/** A photo of a folder or a camera card; `camera` is null where it carries no date. */
export interface CardPhoto {
  readonly sha256: string
  readonly camera: CameraTime | null
}

export type Shows = Extract<PhotoServes, { readonly what: 'gate' }>['shows']

/** Time that somebody worked on one gate or task. */
export interface WorkedSpan {
  readonly target: WorkTarget
  readonly person: string
  readonly from: Moment
  readonly to: Moment
  /** 'day': only the day is known and the span is all of it; 'running': a clock that has not been stopped. */
  readonly known: 'clock' | 'running' | 'by hand' | 'day'
}

/** A gate that was passed, or a task that was signed. */
export interface PassedWork {
  readonly target: WorkTarget
  readonly at: Moment
}

export interface GateForPhotos {
  /** When work on it began by the earliest clock or written time; null where there is none. */
  readonly begun: Moment | null
  readonly passed: Moment | null
  /** The gate asks for a photo before anything is cut. */
  readonly asksBefore: boolean
  /** What is passed last before it: older photos do not count for it. */
  readonly after: { readonly gate: Gate; readonly at: Moment } | null
  /** The layers that it still asks a photo of. */
  readonly layers: readonly LayerId[]
  /** Its window has run out, so that the surface is prepared again and photographed. */
  readonly prepared: boolean
  /** Work on it was declined: each layer is photographed as it is left. */
  readonly asLeft: boolean
}

/** What the matching knows of one car, or of what one person did on it. */
export interface CarForPhotos {
  readonly carId: CarId
  /** The earliest that anything is known of it. */
  readonly came: Moment
  readonly worked: readonly WorkedSpan[]
  readonly passed: readonly PassedWork[]
  /** Worked out when it is asked for: a card touches few of all gates. */
  readonly gate: (repairId: RepairId, gate: Gate) => GateForPhotos
  /** The name of the repair, or of the task. */
  readonly nameOf: (target: WorkTarget) => string
}

/** How sure a match is; 'several fit' is left to the person, 'none' has nothing to offer or only what lies far off. */
export type Sureness = 'certain' | 'likely' | 'several fit' | 'none'

/** One gate or task that a photo may belong to. */
export interface FittingWork {
  readonly carId: CarId
  readonly target: WorkTarget
  /** What the photo shows of a gate. */
  readonly shows: Shows
  readonly layerId: LayerId | null
  /** 'while Joss was clocked on Boot floor, fabricated (13:10 to 15:40)': photos of one spell share it. */
  readonly why: string
  /** Why the photo would not count for what the gate asks for; null when it would. */
  readonly doesNotCount: string | null
}

export interface PhotoMatch {
  readonly sha256: string
  /** When it was taken by the camera's clock as corrected; null without a camera date. */
  readonly taken: Moment | null
  readonly sure: Sureness
  /** What it belongs to: one piece of work when that is certain or likely, all that are equally close when several fit. */
  readonly fits: readonly FittingWork[]
  /** What else lies near, the nearest first; with 'none' no more than a hint. */
  readonly others: readonly FittingWork[]
  /** Why nothing or more than one fits, or what is uncertain about the time itself; empty when nothing is to be said. */
  readonly says: string
}
