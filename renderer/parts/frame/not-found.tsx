import { Link } from '@tanstack/react-router'
import { EmptyState } from '../form/notice.tsx'
import { ScreenHead } from './screen-head.tsx'

export function NotFound() {
  return (
    <div className="stack">
      <ScreenHead title="There is no such page" />
      <EmptyState
        title="The address may be old or mistyped"
        action={
          <Link to="/shop-floor" className="button main">
            To the shop floor
          </Link>
        }
      >
        Everything is reached from the shop floor.
      </EmptyState>
    </div>
  )
}
