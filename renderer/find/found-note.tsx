import { plural } from '../../domain/text/words.ts'
import { isHostAway, refusalOf } from '../client.ts'
import type { FoundNow } from './use-found.ts'

/** What can be found, how much was, and why nothing was; read out when it changes. */
export function FoundNote({
  id,
  text,
  found,
  screens,
}: {
  readonly id: string
  readonly text: string
  readonly found: FoundNow
  readonly screens: number
}) {
  return (
    <p id={id} className="small quiet" role="status">
      {noteOf(text.trim(), found, screens)}
    </p>
  )
}

function noteOf(text: string, { view, error, isCurrent }: FoundNow, screens: number): string {
  if (text === '') return WHAT_CAN_BE
  if (isHostAway(error)) return 'The host cannot be reached: only screens can be found until it is back.'
  if (error !== null) return refusalOf(error)?.message ?? 'This could not be searched. Type it again.'
  if (!isCurrent || view === undefined) return 'Looking…'
  const shown = screens + view.groups.reduce((sum, { found }) => sum + found.length, 0)
  if (shown === 0) return `Nothing has all of these words. ${WHAT_CAN_BE}`
  const hasMore = view.groups.some(({ more }) => more > 0)
  return `${plural('place', shown)} found${hasMore ? '; another word narrows it down' : ''}.`
}

const WHAT_CAN_BE =
  'Cars by name or shell number, owners by name, repairs, photos by caption, notes, findings, holds and screens. The beginning of each word is enough.'
