import { plural } from '../../domain/text/words.ts'
import { outbox, useOutbox } from '../outbox/outbox.ts'
import { WordButton } from './button.tsx'

/** One line at the lower edge when something is not as it should be: no connection, things not sent, things refused later. */
export function OutboxStrip({ connection }: { readonly connection: 'live' | 'connecting' | 'away' }) {
  const { waiting, refused, photos, away, broken } = useOutbox()
  const sending = photos.filter((photo) => photo.state !== 'refused')
  const isAway = connection === 'away' || away
  const onDevice = [
    ...(waiting > 0 ? [plural('entry', waiting, 'entries')] : []),
    ...(sending.length > 0 ? [plural('photo', sending.length)] : []),
  ].join(' and ')
  return (
    <div role="status" className="strips">
      {isAway && (
        <p className="strip">
          No connection to the host.{' '}
          {onDevice === ''
            ? 'What you enter is kept on this device and sent later.'
            : `${onDevice} kept on this device; sent as soon as it is back.`}
        </p>
      )}
      {!isAway && sending.length > 0 && <p className="strip">Sending {plural('photo', sending.length)}…</p>}
      {broken !== null && (
        <p className="strip">
          {broken.message} {broken.next}
        </p>
      )}
      {refused.map(({ command, refusal }) => (
        <p key={command.id} className="strip">
          Sent later and refused: {refusal.message} {refusal.next}{' '}
          <WordButton onClick={() => void outbox.dismissCommand(command.id)}>I have read this</WordButton>
        </p>
      ))}
    </div>
  )
}
