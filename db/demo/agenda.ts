import type { Moment } from '../../domain/car.ts'

/** What happens when: actions in order of their moments; those of one moment in the order they were added. */
export interface Agenda {
  readonly add: (at: Moment, action: () => void) => void
  /** Runs everything before `until`, also what is added meanwhile. */
  readonly run: (until: Moment, setClock: (at: Moment) => void) => void
}

export function createAgenda(): Agenda {
  const waiting: { readonly at: Moment; readonly action: () => void }[] = []
  return {
    add: (at, action) => {
      waiting.splice(waiting.findLastIndex((entry) => entry.at <= at) + 1, 0, { at, action })
    },
    run: (until, setClock) => {
      for (let next = waiting[0]; next && next.at < until; next = waiting[0]) {
        waiting.shift()
        setClock(next.at)
        next.action()
      }
    },
  }
}
