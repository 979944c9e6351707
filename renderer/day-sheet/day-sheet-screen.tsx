import { useQuery } from '@tanstack/react-query'
import { useSearch } from '@tanstack/react-router'
import type { PersonId } from '../../domain/ids.ts'
import { api } from '../client.ts'
import { useWaitingClock } from '../outbox/waiting-clock.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { ChoosePersonSheet } from './choose-person-sheet.tsx'
import { DaySheet } from './day-sheet.tsx'
import { useReadAhead } from './use-read-ahead.ts'

/** Clocks and watches go by the time, so it is read again without any change on the host too. */
const READ_EVERY_MS = 60_000

/** One person's day: the one at this device, unless the address names another. */
export function DaySheetScreen() {
  const { person, manager } = useActor()
  const { person: named } = useSearch({ from: '/day-sheet' })
  const personId = (named as PersonId | undefined) ?? person?.id ?? manager?.id
  return personId === undefined ? <ChoosePersonSheet /> : <SheetOf personId={personId} />
}

function SheetOf({ personId }: { readonly personId: PersonId }) {
  const query = useQuery(api.daySheet.queryOptions({ personId }, { refetchInterval: READ_EVERY_MS }))
  useReadAhead(query.data)
  const clock = useWaitingClock(query.data?.clock ?? null, personId)
  return <Loaded query={query}>{(view) => <DaySheet key={personId} view={{ ...view, clock }} />}</Loaded>
}
