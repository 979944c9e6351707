import { type KeyboardEvent, type ReactNode, useId, useRef, useState } from 'react'
import { onDemand } from '../frame/on-demand.tsx'
import type { MenuEntry } from './open-menu.tsx'

const OpenMenu = onDemand(async () => (await import('./open-menu.tsx')).OpenMenu)

/** Lesser actions behind one button; the arrow keys open it too, down at its first and up at its last. */
export function Menu({
  label,
  entries,
  className = 'button',
}: {
  readonly label: ReactNode
  readonly entries: readonly MenuEntry[]
  readonly className?: string
}) {
  const button = useRef<HTMLButtonElement>(null)
  const buttonId = useId()
  const [openAt, setOpenAt] = useState<'first' | 'last' | null>(null)
  const openByKey = (event: KeyboardEvent) => {
    if (event.key !== 'ArrowDown' && event.key !== 'ArrowUp') return
    event.preventDefault()
    setOpenAt(event.key === 'ArrowDown' ? 'first' : 'last')
  }
  return (
    <>
      <button
        ref={button}
        id={buttonId}
        type="button"
        className={className}
        aria-haspopup="menu"
        aria-expanded={openAt !== null}
        onKeyDown={openByKey}
        onClick={() => {
          // It gets the focus back when the menu closes; not every browser gives it to a button that is tapped.
          button.current?.focus()
          setOpenAt(openAt === null ? 'first' : null)
        }}
      >
        {label}
      </button>
      {openAt !== null && (
        <OpenMenu
          button={button}
          buttonId={buttonId}
          entries={entries}
          focusOn={openAt}
          onClose={() => setOpenAt(null)}
        />
      )}
    </>
  )
}
