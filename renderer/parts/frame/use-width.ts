import { useLayoutEffect, useRef, useState } from 'react'

/** The width in pixels that an element has now; 0 until it has been laid out. */
export function useWidth<Element extends HTMLElement>() {
  const ref = useRef<Element>(null)
  const [width, setWidth] = useState(0)
  useLayoutEffect(() => {
    const element = ref.current
    if (element === null) return
    const measure = () => setWidth(Math.floor(element.clientWidth))
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return { ref, width }
}
