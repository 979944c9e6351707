import { Link } from '@tanstack/react-router'
import { EmptyState } from './notice.tsx'

export function NotFound() {
  return (
    <EmptyState
      title="There is no such page"
      action={
        <Link to="/shop-floor" className="button main">
          To the shop floor
        </Link>
      }
    >
      The address may be old or mistyped.
    </EmptyState>
  )
}
