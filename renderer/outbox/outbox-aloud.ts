import { plural } from '../../domain/text/words.ts'
import type { Refusal } from '../../domain/refusal.ts'
import type { OutboxState, PhotoInOutbox } from './board.ts'

/**
 * Follows what is kept on this device and says what has come of it since the last call: photos stored, entries that wait,
 * what the host refused afterwards.
 */
export function followOutbox(): (state: OutboxState) => readonly string[] {
  let before: OutboxState | null = null
  let kept = 0
  return (state) => {
    const last = before ?? state
    before = state
    const words = [...photoWords(last, state), ...refusedWords(last, state)]
    if (state.prepared.length > last.prepared.length) words.push('The gate is prepared, not signed.')
    if (state.away && state.waiting > kept)
      words.push(`${plural('entry', state.waiting, 'entries')} kept on this device, to be sent later.`)
    if (kept > 0 && state.waiting === 0) words.push('What waited on this device is sent.')
    kept = state.away || state.waiting === 0 ? state.waiting : kept
    return words
  }
}

const isUnderWay = ({ state }: PhotoInOutbox): boolean => state !== 'refused'

function photoWords(last: OutboxState, state: OutboxState): string[] {
  const added = without(state.photos.filter(isUnderWay), last.photos).length
  // One that was put aside had been refused.
  const stored = without(last.photos.filter(isUnderWay), state.photos).length
  return [
    ...(added > 0 && state.away ? [`${plural('photo', added)} kept on this device, to be sent later.`] : []),
    ...(stored > 0 ? [`${plural('photo', stored)} stored.`] : []),
  ]
}

function refusedWords(last: OutboxState, state: OutboxState): readonly string[] {
  const known = new Set(last.refused.map(({ command }) => command.id))
  const refused = state.refused.filter(({ command }) => !known.has(command.id)).map(({ refusal }) => refusal)
  const photos = without(
    state.photos.filter((photo) => !isUnderWay(photo)),
    last.photos.filter((photo) => !isUnderWay(photo)),
  )
  return [...refused, ...photos.map(({ refusal }) => refusal)].filter((each) => each !== null).map(notDone)
}

const notDone = ({ message, next }: Refusal): string => `Not done: ${message} ${next}`

function without(
  photos: readonly PhotoInOutbox[],
  known: readonly PhotoInOutbox[],
): readonly PhotoInOutbox[] {
  const ids = new Set(known.map(({ attachmentId }) => attachmentId))
  return photos.filter(({ attachmentId }) => !ids.has(attachmentId))
}
