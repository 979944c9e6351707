import { errorStack } from '../domain/text/error-words.ts'
/** How often the clock is looked at: one long timer goes wrong where a computer sleeps. */
const TICK_MS = 30_000

export interface Ticks {
  readonly add: (work: () => Promise<void>) => void
  /** Does all of it at once, and then again and again. */
  readonly start: () => void
  /** Begins nothing more and waits for what is under way. */
  readonly stop: () => Promise<void>
}

export interface TicksOptions {
  /** Told of defects: what is done by itself must not end the host. */
  readonly log: (line: string) => void
  readonly everyMs?: number | undefined
}

/** What the host does by itself now and then. A tick that comes while the last one is at work does nothing. */
export function createTicks({ log, everyMs = TICK_MS }: TicksOptions): Ticks {
  const works: (() => Promise<void>)[] = []
  let underWay: Promise<void> | null = null
  let timer: NodeJS.Timeout | undefined

  const doAll = async () => {
    for (const work of works) {
      try {
        await work()
      } catch (error) {
        log(`by itself: ${errorStack(error)}`)
      }
    }
  }
  const tick = () => {
    underWay ??= doAll().finally(() => (underWay = null))
  }
  return {
    add: (work) => void works.push(work),
    start: () => {
      tick()
      timer = setInterval(tick, everyMs).unref()
    },
    stop: async () => {
      clearInterval(timer)
      await underWay
    },
  }
}
