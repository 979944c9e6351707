import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { api } from '../client.ts'
import { Notice } from '../parts/form/notice.tsx'

/** An age changes with the days, not with what is recorded. */
const READ_EVERY_MS = 10 * 60_000

const warningQuery = () => ({ ...api.copiesWarning.queryOptions(), refetchInterval: READ_EVERY_MS })

/** False while it is asked for the first time: what stands below waits for it, so that nothing moves. */
export function useIsWarningKnown(): boolean {
  const { isPending, failureCount } = useQuery(warningQuery())
  return !isPending || failureCount > 0
}

/** Says to managers, and on the host's own window, that the last good copy is missing or too old. */
export function CopiesWarning() {
  const { data: warning } = useQuery(warningQuery())
  if (warning === undefined || warning === null) return null
  return (
    <Notice kind="caution">
      <p className="strong">{warning.message}</p>
      <p>
        {warning.next}{' '}
        <Link to="/workshop" search={{ sheet: 'copies' }} className="reaching">
          Go to Copies
        </Link>
      </p>
    </Notice>
  )
}
