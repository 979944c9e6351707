import type { ReactNode } from 'react'

/** A table that scrolls inside its frame where the screen is narrow, by finger or by keyboard; the page never does. */
export function TableFrame({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a region that scrolls must be reached by keyboard
    <div className="table-frame" role="region" aria-label={label} tabIndex={0}>
      {children}
    </div>
  )
}
