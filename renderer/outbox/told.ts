/** What was entered, in the words of that moment: later the names may be out of reach. */
export interface Told {
  readonly what: string
  /** The car, and the repair where there is one; empty for the workshop itself. */
  readonly where: string
  /** What a clock runs on; empty for everything else. */
  readonly on: string
  /** Who entered it; empty when nobody was named. */
  readonly by: string
}
