/** When a screen counts as drawn: all of these hold in a frame. */
export interface Mark {
  readonly path: string
  /** What the heading of the screen says, or a part of it; null where it is a name of the data. */
  readonly heading: string | null
  /** There only with what the screen reads. */
  readonly drawn: string
}

export interface Drawn {
  /** Milliseconds since the navigation began, or since the click. */
  readonly drawnMs: number
  /** `performance.now()` of it. */
  readonly at: number
}

export interface Task {
  readonly at: number
  readonly ms: number
}

export interface Shift extends Task {
  readonly score: number
  readonly of: string
}

export interface Probe {
  readonly tasks: Task[]
  readonly shifts: Shift[]
  /** Of clicks: until the next paint, as the browser itself tells it, in steps of 8 ms. */
  readonly paints: Task[]
  /** Waits for a screen from the navigation on, or from the next click. */
  readonly expect: (mark: Mark, from: 'navigation' | 'click') => void
  /** Resolves with the frame that shows it. */
  readonly whenDrawn: () => Promise<Drawn>
}

declare global {
  var probe: Probe
}

/** Runs in the page before anything of it, so it may use nothing from outside. */
export function installProbe(first: Mark): void {
  const tasks: Task[] = []
  const shifts: Shift[] = []
  const paints: Task[] = []
  let waiting: Promise<Drawn> = new Promise(() => undefined)
  const observe = (type: string, add: (entry: PerformanceEntry) => void, more: object = {}) =>
    new PerformanceObserver((list) => list.getEntries().forEach(add)).observe({
      type,
      buffered: true,
      ...more,
    })
  observe('longtask', ({ startTime, duration }) => tasks.push({ at: startTime, ms: duration }))
  observe(
    'event',
    ({ name, startTime, duration }) => name === 'click' && paints.push({ at: startTime, ms: duration }),
    { durationThreshold: 16 },
  )
  observe('layout-shift', (entry) => {
    const { value, sources } = entry as unknown as {
      readonly value: number
      readonly sources: readonly { readonly node: Node | null }[]
    }
    const of = sources.map(({ node }) => {
      const element = node instanceof Element ? node : node?.parentElement
      return element === null || element === undefined
        ? 'something gone'
        : `${element.tagName.toLowerCase()}.${element.getAttribute('class') ?? ''} '${element.textContent?.slice(0, 24)}'`
    })
    shifts.push({ at: entry.startTime, ms: 0, score: value, of: of.join(', ') })
  })

  const isDrawn = ({ path, heading, drawn }: Mark): boolean => {
    const title = document.querySelector('main h1')?.textContent ?? ''
    return (
      location.pathname + location.search === path &&
      title !== '' &&
      (heading === null || title.includes(heading)) &&
      document.querySelector('main .reading') === null &&
      document.querySelector(drawn) !== null
    )
  }
  /** Looks before each frame is painted; the task after that frame has it on the screen. */
  const drawn = (mark: Mark, from: () => number): Promise<Drawn> =>
    new Promise((resolve) => {
      const look = (): void => {
        if (!isDrawn(mark)) requestAnimationFrame(look)
        else
          setTimeout(() => {
            const at = performance.now()
            resolve({ at, drawnMs: at - from() })
          })
      }
      requestAnimationFrame(look)
    })
  const expect: Probe['expect'] = (mark, from) => {
    let clickedAt = 0
    if (from === 'click')
      addEventListener('click', ({ timeStamp }) => (clickedAt = timeStamp), { capture: true, once: true })
    waiting = drawn(mark, () => clickedAt)
  }
  Object.assign(window, { probe: { tasks, shifts, paints, expect, whenDrawn: () => waiting } })
  expect(first, 'navigation')
}
