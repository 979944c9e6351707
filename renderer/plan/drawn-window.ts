import { createFollowed, type Followed, useFollowed } from '../followed.ts'

/** The part of the drawing's width that is in the page now. */
export interface DrawnWindow {
  readonly from: number
  readonly to: number
}

/** Blocks are drawn in strips of this width, so that scrolling adds one strip at a time. */
export const STRIP = 480

/**
 * Which strips are drawn, apart from the state of the screen: scrolling draws strips and nothing else anew.
 */
export interface WindowStore {
  readonly drawn: Followed<DrawnWindow>
  /** The strips that can be seen and one on each side. */
  readonly show: (left: number, width: number) => void
}

export function createWindowStore(): WindowStore {
  const drawn = createFollowed<DrawnWindow>({ from: 0, to: 3 * STRIP })
  return {
    drawn,
    show: (left, width) => {
      const from = Math.max(0, Math.floor(left / STRIP) - 1) * STRIP
      const to = (Math.ceil((left + width) / STRIP) + 1) * STRIP
      const before = drawn.now()
      if (before.from !== from || before.to !== to) drawn.set({ from, to })
    },
  }
}

export const useDrawnWindow = ({ drawn }: WindowStore): DrawnWindow => useFollowed(drawn)
