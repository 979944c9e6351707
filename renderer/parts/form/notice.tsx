import type { ReactNode } from 'react'
import type { Refusal } from '../../../domain/refusal.ts'

export type NoticeKind = 'plain' | 'held' | 'refused' | 'done' | 'caution'

/** Words set apart by a bar at the edge; the first word says what kind it is. Refusals are read out at once. */
export function Notice({
  kind = 'plain',
  children,
}: {
  readonly kind?: NoticeKind
  readonly children: ReactNode
}) {
  return (
    <div
      className={`notice ${kind}`}
      role={kind === 'refused' ? 'alert' : kind === 'done' ? 'status' : undefined}
    >
      {children}
    </div>
  )
}

/** Why something was not taken in, and what to do now. */
export function RefusalNote({ refusal }: { readonly refusal: Refusal | null }) {
  if (refusal === null) return null
  return (
    <Notice kind="refused">
      <p className="strong">Not done: {refusal.message}</p>
      <p>{refusal.next}</p>
    </Notice>
  )
}

/** Shown where there is nothing yet: what will be here, and the first step. */
export function EmptyState({
  title,
  children,
  action,
}: {
  readonly title: string
  readonly children: ReactNode
  readonly action?: ReactNode
}) {
  return (
    <div className="empty">
      <h2>{title}</h2>
      <p>{children}</p>
      {action}
    </div>
  )
}
