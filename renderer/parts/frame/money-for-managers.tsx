import type { ReactNode } from 'react'
import { ManagersOnly } from './managers-only.tsx'

/** Figures of money, shown to a manager who is signed in on this device. */
export function MoneyForManagers({ children }: { readonly children: ReactNode }) {
  return (
    <ManagersOnly
      title="Money is shown to managers only"
      why="Rates, prices and what is spent stand here once you have given your code on this device."
    >
      {children}
    </ManagersOnly>
  )
}
