import type { ReactNode } from 'react'
import { useActor } from '../sign/actor.tsx'
import { Button } from '../form/button.tsx'
import { EmptyState } from '../form/notice.tsx'

/** Shows what stands in it to a manager who is signed in on this device; others read what would stand here. */
export function ManagersOnly({
  title,
  why,
  children,
}: {
  readonly title: string
  /** What a manager does or sees here. */
  readonly why: string
  readonly children: ReactNode
}) {
  const { manager, askManager } = useActor()
  if (manager !== null) return children
  return (
    <EmptyState
      title={title}
      action={
        <Button kind="main" onClick={() => void askManager()}>
          Manager: sign in
        </Button>
      }
    >
      {why}
    </EmptyState>
  )
}
