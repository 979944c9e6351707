import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { api } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Notice } from '../parts/form/notice.tsx'

/** Tells signed-in managers that a newer version was found; where it is stands under Updates. */
export function NewerVersion() {
  const { manager } = useActor()
  const { data } = useQuery({ ...api.updates.queryOptions(), enabled: manager !== null })
  if (manager === null || data === undefined || data.newer === null) return null
  return (
    <Notice kind="done">
      Version {data.newer.version} of Panelwright is there.{' '}
      <Link to="/workshop" search={{ sheet: 'updates' }}>
        Where it is
      </Link>
    </Notice>
  )
}
