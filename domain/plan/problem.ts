/**
 * What the planner is asked: work to place, and everything that stands in its way. Plain data by index, so that the same
 * solver plans a workshop and plain resource-constrained problems from the literature (those leave cars, bays, people and
 * calendars empty). Times are whole ticks from the problem's origin; a workshop's tick is TICK_MINUTES long.
 */
export const TICK_MINUTES = 5

export interface Problem {
  /** Nothing is placed to finish after this tick. */
  readonly horizon: number
  /** Ticks at which the workshop's local days begin, in order, from the day of tick 0 (may be negative) past the horizon. */
  readonly midnights: readonly number[]
  readonly calendars: readonly Calendar[]
  readonly people: readonly PlanPerson[]
  /** Names of bay kinds and bays stay outside: a kind is an index. */
  readonly bays: readonly PlanBay[]
  /** Renewable resources: available in the same amount at every tick. */
  readonly resources: readonly { readonly capacity: number }[]
  readonly cars: readonly PlanCar[]
  readonly activities: readonly Activity[]
  readonly links: readonly Link[]
  readonly stands: readonly Stand[]
  /** Pairs of stands that may not be open at the same time: different sides of one shell, support not lifted. */
  readonly apart: readonly (readonly [stand: number, other: number])[]
  readonly spans: readonly ResourceSpan[]
  /** What moving a shell takes. */
  readonly move: { readonly work: number; readonly people: number; readonly able: readonly number[] }
}

/** Working time: spans in order, apart, none empty, end exclusive. Work pauses between them and goes on. */
export interface Calendar {
  readonly spans: readonly { readonly from: number; readonly to: number }[]
}

export interface PlanPerson {
  readonly calendar: number
}

export interface PlanBay {
  readonly kinds: readonly number[]
  /** How many shells it takes at a time; a yard takes many. */
  readonly places: number
  /** A yard: shells wait in it, and no work that needs a bay is done there. */
  readonly storage: boolean
}

export interface PlanCar {
  /** Ticks; null when nothing is promised. */
  readonly due: number | null
  /** Lateness counts this many times. */
  readonly weight: number
  /** The bay that the shell stands in at tick 0; null when it is not in the workshop. */
  readonly bay: number | null
  /** Not here before this tick: not arrived yet, or away at a firm. While away it keeps no bay. */
  readonly arrives: number
  /** Braced or on a fixture: it may move while a stand of it is open. */
  readonly braced: boolean
  /** Bookings that the manager has made, in order of time, apart. */
  readonly bookings: readonly { readonly bay: number; readonly from: number; readonly to: number }[]
}

/** A gate or task, or what is left of it. */
export interface Activity {
  /** Ticks of working time with the whole crew at it. Without a crew it runs through, nights included. */
  readonly work: number
  /** Ticks; a part, a decision, a hold, a pinned day. */
  readonly earliest: number
  /** Pinned to a day: it should start at or before this tick. Missed: a clash of pins, not an infeasible plan. */
  readonly latestStart: number | null
  readonly car: number | null
  /** Index of a bay kind; null for work that needs no bay (a part on the bench). */
  readonly bayKind: number | null
  readonly crew: Crew | null
  /**
   * Ticks of fire watch after hot work; 0 for other work. Hot work pauses so long before the last person's day ends
   * that the watch is over when they go.
   */
  readonly watch: number
  readonly uses: readonly { readonly resource: number; readonly amount: number }[]
  /** Ticks of curing after the end before the car counts as finished. */
  readonly tail: number
  /** Activities of one repair share a number: they change places in the list together. */
  readonly repair: number
  /** Begun, pinned or within the frozen days of the plan in force: it is placed before all others, by this order. */
  readonly first: number | null
  /** As the plan in force has it; another crew or another day counts as a change. */
  readonly inForce: { readonly start: number; readonly crew: readonly number[] } | null
}

export interface Crew {
  readonly people: number
  /** Who may do it; holds everyone named. */
  readonly able: readonly number[]
  /** Who must be among them: the work is theirs already, or the manager pinned them. At most `people`. */
  readonly named: readonly number[]
}

/** `after` starts at least `lag` ticks of the clock (nights count) after `before` has finished. */
export interface Link {
  readonly before: number
  readonly after: number
  readonly lag: number
}

/** A load-bearing repair standing open: from the start of `from` (null: it is open at tick 0) to the finish of `until`. */
export interface Stand {
  readonly car: number
  readonly from: number | null
  readonly until: number
}

/** A jig or dolly held from the start of the first of these activities to the finish of the last. */
export interface ResourceSpan {
  readonly resource: number
  readonly amount: number
  readonly activities: readonly number[]
  /** True when it is held at tick 0 already. */
  readonly held: boolean
}
