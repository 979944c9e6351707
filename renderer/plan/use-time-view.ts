import { useCallback, useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react'
import {
  momentAt,
  scaleFor,
  scaleWidth,
  type TimeScale,
  xOf,
  zoomBy,
  zoomStep,
} from '../../domain/drawing/plan-scale.ts'
import type { PlanDay } from '../../domain/views/plan-view-shapes.ts'
import { createWindowStore, type WindowStore } from './drawn-window.ts'

/** Width of the names at the left edge, in pixels; as in drawing.module.css. */
export const NAMES = 184
/** Where now stands when the drawing opens: a part of the width from its left. */
const NOW_AT = 0.12
/** Days shown at first. */
const FIRST_DAYS = 28

export interface TimeView {
  readonly scroller: React.RefObject<HTMLDivElement | null>
  readonly scale: TimeScale
  readonly daysShown: number
  readonly shown: WindowStore
  readonly onScroll: () => void
  /** Now stays where it is when it is in sight, else what stands in the middle, or what stands at this pixel of the field. */
  readonly zoomTo: (daysShown: number, atPixel?: number) => void
  readonly step: (direction: 'closer' | 'wider') => void
  readonly goTo: (at: number) => void
}

/** Which stretch of time the drawing shows, how close, and how that changes. */
export function useTimeView(days: readonly PlanDay[], now: number): TimeView {
  const scroller = useRef<HTMLDivElement>(null)
  const [width, setWidth] = useState(0)
  const [daysShown, setDaysShown] = useState(FIRST_DAYS)
  const [shown] = useState(createWindowStore)
  const scale = useMemo(() => scaleFor(days, Math.max(1, width), daysShown), [days, width, daysShown])
  /** What stands at which pixel, so that it stands there after the scale has changed too. */
  const kept = useRef({ at: now, pixel: null as number | null })

  const onScroll = useCallback(() => {
    const element = scroller.current
    if (element === null || width === 0) return
    kept.current = { at: momentAt(scale, element.scrollLeft), pixel: 0 }
    shown.show(element.scrollLeft, width)
  }, [shown, scale, width])

  useLayoutEffect(() => {
    const element = scroller.current
    if (element === null) return
    const measure = () => setWidth(Math.max(320, element.clientWidth - NAMES))
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])

  useLayoutEffect(() => {
    const element = scroller.current
    if (element === null || width === 0) return
    const { at, pixel } = kept.current
    element.scrollLeft = xOf(scale, at) - (pixel ?? width * NOW_AT)
    onScroll()
  }, [scale, width, onScroll])

  const zoomTo = useCallback(
    (next: number, atPixel?: number) => {
      const left = scroller.current?.scrollLeft ?? 0
      const nowPixel = xOf(scale, now) - left
      const pixel = atPixel ?? (nowPixel >= 0 && nowPixel <= width ? nowPixel : width / 2)
      kept.current = { at: momentAt(scale, left + pixel), pixel }
      setDaysShown(next)
    },
    [scale, width, now],
  )
  const step = useCallback(
    (direction: 'closer' | 'wider') => zoomTo(zoomStep(daysShown, direction)),
    [daysShown, zoomTo],
  )
  const goTo = useCallback(
    (at: number) => {
      scroller.current?.scrollTo({ left: Math.min(scaleWidth(scale), xOf(scale, at) - width * NOW_AT) })
    },
    [scale, width],
  )
  useWheelZoom(scroller, daysShown, zoomTo)
  return { scroller, scale, daysShown, shown, onScroll, zoomTo, step, goTo }
}

/** The wheel with Ctrl held, and fingers on a touch pad, which browsers tell as the same. */
function useWheelZoom(
  scroller: React.RefObject<HTMLDivElement | null>,
  daysShown: number,
  zoomTo: TimeView['zoomTo'],
): void {
  useEffect(() => {
    const element = scroller.current
    if (element === null) return
    const zoom = (event: WheelEvent) => {
      if (!event.ctrlKey) return
      event.preventDefault()
      const pixel = event.clientX - element.getBoundingClientRect().left - NAMES
      zoomTo(zoomBy(daysShown, Math.exp(event.deltaY * WHEEL)), Math.max(0, pixel))
    }
    // React listens passively, which cannot keep the page itself from being zoomed.
    element.addEventListener('wheel', zoom, { passive: false })
    return () => element.removeEventListener('wheel', zoom)
  }, [scroller, daysShown, zoomTo])
}

/** A notch of a usual wheel is 100: it then shows about a quarter more or less. */
const WHEEL = 0.0022
