import { joinWords, plural } from '../../../domain/text/words.ts'
import { useOutbox } from '../../outbox/outbox.ts'
import { Notice } from '../form/notice.tsx'

/** In place of every screen on a device that is not paired any more: what waits on it is kept, and how it comes in again. */
export function ShutOut({ message }: { readonly message: string }) {
  const { waiting, photos, prepared } = useOutbox()
  const kept = [
    ...(waiting > 0 ? [plural('entry', waiting, 'entries')] : []),
    ...(photos.length > 0 ? [plural('photo', photos.length)] : []),
    ...(prepared.length > 0 ? [plural('prepared gate', prepared.length)] : []),
  ]
  return (
    <main className="desk">
      <div className="empty" role="alert">
        <h1>{message}</h1>
        <p>
          Photos and entries that it sent stay in the workshop. A manager can let it in again with a pairing
          code from Panelwright’s own window.
        </p>
        {kept.length > 0 && (
          <Notice kind="held">
            <p className="strong">{joinWords(kept)} kept on this device.</p>
            <p>They go on as soon as it is let in again.</p>
          </Notice>
        )}
        <a className="button main" href="/pair">
          Give a pairing code
        </a>
      </div>
    </main>
  )
}
