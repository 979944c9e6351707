import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { api } from '../client.ts'
import { Notice } from './notice.tsx'

/** An age changes with the days, not with what is recorded. */
const READ_EVERY_MS = 10 * 60_000

/** Says to managers, and on the host's own window, that the last good copy is missing or too old. */
export function CopiesWarning() {
  const { data: warning } = useQuery({ ...api.copiesWarning.queryOptions(), refetchInterval: READ_EVERY_MS })
  if (warning === undefined || warning === null) return null
  return (
    <Notice kind="caution">
      <p className="strong">{warning.message}</p>
      <p>
        {warning.next}{' '}
        <Link to="/workshop" search={{ sheet: 'copies' }}>
          Go to Copies
        </Link>
      </p>
    </Notice>
  )
}
