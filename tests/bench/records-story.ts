import { recordEveryKind } from '../db/every-kind.ts'
import { changeAnotherCar, photos, recordPhotos, report } from '../soak/story.ts'
import { createWorkshop, firstMorning, type Workshop } from '../support/workshop.ts'
import { quantile, spreadOf, timedNow, type Spread, type Timed } from './timing.ts'

export interface StoryTimes {
  /** Over all commands of the story, whatever their kind. */
  readonly all: Spread
  /** By kind of command: processor time in ms, the median of the few times that it is sent. */
  readonly cpuByKind: Readonly<Record<string, number>>
}

const WARM_UP = 3

/**
 * Sends every kind of command as the host carries it out, without its way over the network: the story of two more cars beside
 * those that the folder holds. It is told to small workshops first, so that its code is warm.
 */
export function storyTimes(workshop: Workshop): StoryTimes {
  for (let round = 0; round < WARM_UP; round += 1) {
    const small = createWorkshop()
    tell(small)
    small.close()
  }
  const took = new Map<string, Timed[]>()
  const send = workshop.send.bind(workshop)
  let sent = 0
  workshop.send = (kind, payload, options?) => {
    sent += 1
    const { result, time } = timedNow(() =>
      send(kind, payload, { ...options, id: options?.id ?? `bench-story-${sent}` }),
    )
    took.set(kind, [...(took.get(kind) ?? []), time])
    return result
  }
  // The story names hours of this day, which the clock of the bench has left behind.
  workshop.now = firstMorning
  tell(workshop)
  const kinds = [...took].map(
    ([kind, times]) =>
      [
        kind,
        quantile(
          times.map(({ cpu }) => cpu),
          0.5,
        ),
      ] as const,
  )
  return {
    all: spreadOf([...took.values()].flat()),
    cpuByKind: Object.fromEntries(kinds.toSorted((a, b) => b[1] - a[1])),
  }
}

function tell(workshop: Workshop): void {
  recordPhotos(workshop.db, photos)
  recordEveryKind(workshop, photos, report)
  changeAnotherCar(workshop)
}
