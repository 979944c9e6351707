import { type ReactNode, useEffect, useRef } from 'react'

/** The sheets of a screen in one line, which scrolls within itself where it is too long; the one that is shown is in view. */
export function Tabs({
  label,
  shown,
  children,
}: {
  readonly label: string
  readonly shown: string
  readonly children: ReactNode
}) {
  const line = useRef<HTMLElement>(null)
  useEffect(() => {
    const tab = line.current?.querySelector<HTMLElement>('[aria-current="page"]')
    if (!line.current || !tab) return
    // The line alone: to scroll the tab into view would move the page too.
    line.current.scrollLeft = tab.offsetLeft - (line.current.clientWidth - tab.offsetWidth) / 2
  }, [shown])
  return (
    <nav ref={line} className="tabs" aria-label={label}>
      {children}
    </nav>
  )
}
