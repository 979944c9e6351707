import { useSyncExternalStore } from 'react'

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
  readonly get: () => DrawnWindow
  readonly subscribe: (listener: () => void) => () => void
  /** The strips that can be seen and one on each side. */
  readonly show: (left: number, width: number) => void
}

export function createWindowStore(): WindowStore {
  let shown: DrawnWindow = { from: 0, to: 3 * STRIP }
  const listeners = new Set<() => void>()
  return {
    get: () => shown,
    subscribe: (listener) => {
      listeners.add(listener)
      return () => listeners.delete(listener)
    },
    show: (left, width) => {
      const from = Math.max(0, Math.floor(left / STRIP) - 1) * STRIP
      const to = (Math.ceil((left + width) / STRIP) + 1) * STRIP
      if (shown.from === from && shown.to === to) return
      shown = { from, to }
      for (const listener of listeners) listener()
    },
  }
}

export const useDrawnWindow = (store: WindowStore): DrawnWindow =>
  useSyncExternalStore(store.subscribe, store.get)
