import type { ReactNode } from 'react'

/** How far something is that takes a while, as a bar and in words, which are read out as they change. */
export function UnderWay({
  label,
  done,
  of,
  children,
}: {
  /** What the bar is of. */
  readonly label: string
  readonly done?: number | undefined
  /** All of it; nothing or 0 while nobody knows, and the bar then only says that it goes on. */
  readonly of?: number | undefined
  readonly children: ReactNode
}) {
  return (
    <div role="status">
      <progress
        className="progress"
        aria-label={label}
        {...(of !== undefined && of > 0 && { value: done ?? 0, max: of })}
      />
      <p className="small quiet">{children}</p>
    </div>
  )
}
