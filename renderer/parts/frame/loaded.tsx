import type { UseQueryResult } from '@tanstack/react-query'
import type { ReactNode } from 'react'
import type { Refusal } from '../../../domain/refusal.ts'
import { isHostAway, refusalOf } from '../../client.ts'
import { Button } from '../form/button.tsx'
import { Notice } from '../form/notice.tsx'

/**
 * Shows what a query has read. Nothing moves for the first 200 ms; then one quiet line. What was read before stays on
 * the screen while it is read again, and when that fails.
 */
export function Loaded<Data>({
  query,
  children,
}: {
  readonly query: UseQueryResult<Data, unknown>
  readonly children: (data: Data) => ReactNode
}) {
  if (query.data !== undefined) return <>{children(query.data)}</>
  if (query.isError) return <ErrorState error={query.error} onRetry={() => void query.refetch()} />
  return (
    <p className="reading" role="status">
      Reading…
    </p>
  )
}

/** A screen or a part of it that could not be read. */
export function ErrorState({ error, onRetry }: { readonly error: unknown; readonly onRetry: () => void }) {
  const { message, next } = problemOf(error)
  return (
    <div className="empty" role="alert">
      <Notice kind="refused">
        <p className="strong">{message}</p>
        <p>{next}</p>
      </Notice>
      <Button kind="main" onClick={onRetry}>
        Try again
      </Button>
    </div>
  )
}

function problemOf(error: unknown): Pick<Refusal, 'message' | 'next'> {
  if (isHostAway(error)) {
    return {
      message: 'The host cannot be reached.',
      next: 'Check that Panelwright is running on its computer and that this device is on the workshop network. What you entered is kept here.',
    }
  }
  return (
    refusalOf(error) ?? {
      message: 'This could not be read.',
      next: error instanceof Error ? error.message : 'Reload the page.',
    }
  )
}
