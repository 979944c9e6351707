import type { ReactNode } from 'react'
import { useActor } from './actor.tsx'
import { Button } from './button.tsx'
import { EmptyState } from './notice.tsx'

/** Shows what stands in it to a manager who is signed in on this device; others read why they see nothing. */
export function MoneyForManagers({ children }: { readonly children: ReactNode }) {
  const { manager, askManager } = useActor()
  if (manager !== null) return children
  return (
    <EmptyState
      title="Money is shown to managers only"
      action={
        <Button kind="main" onClick={() => void askManager()}>
          Manager: sign in
        </Button>
      }
    >
      Rates, prices and what is spent stand here once you have given your code on this device.
    </EmptyState>
  )
}
