import { useState, type ReactNode } from 'react'
import { plural } from '../../domain/text/words.ts'
import { lastRead } from './kept-views.ts'
import { useLostAt } from '../live.ts'
import { outbox, useOutbox } from './outbox.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { JustDoneStrip } from '../parts/frame/just-done-strip.tsx'
import { onDemand } from '../parts/frame/on-demand.tsx'
import styles from './outbox-sheet.module.css'
import { useWhen } from '../parts/frame/when.tsx'

const OutboxSheet = onDemand(async () => (await import('./outbox-sheet.tsx')).OutboxSheet)

/** At the lower edge when something is not as it should be: no connection, things not sent, things to be decided. */
export function OutboxStrip({
  connection,
  isOlder,
}: {
  readonly connection: 'live' | 'connecting' | 'away'
  /** This device holds newer screens than those that are shown. */
  readonly isOlder: boolean
}) {
  const { waiting, refused, photos, prepared, away, broken } = useOutbox()
  const [isOpen, setIsOpen] = useState(false)
  const sending = photos.filter((photo) => photo.state !== 'refused')
  const isAway = connection === 'away' || away
  const toDecide = toDecideWords(prepared.length, refused.length + photos.length - sending.length)
  const onDevice = [
    ...(waiting > 0 ? [plural('entry', waiting, 'entries')] : []),
    ...(sending.length > 0 ? [plural('photo', sending.length)] : []),
  ].join(' and ')
  const isSending = !isAway && sending.length > 0
  const show = () => {
    void outbox.look()
    setIsOpen(true)
  }
  return (
    <>
      <div className="strips">
        <JustDoneStrip />
        {(isAway || isSending || toDecide !== '') && (
          <Strip onShow={onDevice === '' && toDecide === '' ? null : show}>
            {isAway && (
              <>
                No connection to the host. <AsOf />{' '}
                {onDevice === ''
                  ? 'What you enter is kept on this device and sent later. '
                  : `${onDevice} kept on this device. `}
              </>
            )}
            {isSending && `Sending ${plural('photo', sending.length)}… `}
            {toDecide}
          </Strip>
        )}
        {broken !== null && (
          <Strip onShow={null}>
            {broken.message} {broken.next}
          </Strip>
        )}
        {isOlder && (
          <p className={`strip ${styles.strip}`}>
            <span>A newer version of these screens is here.</span>
            <WordButton className={`${styles.show}`} onClick={() => window.location.reload()}>
              load it
            </WordButton>
          </p>
        )}
      </div>
      {isOpen && <OutboxSheet onClose={() => setIsOpen(false)} />}
    </>
  )
}

function Strip({
  onShow,
  children,
}: {
  /** Null where there is nothing to show. */
  readonly onShow: (() => void) | null
  readonly children: ReactNode
}) {
  return (
    <p className={`strip ${styles.strip}`}>
      <span>{children}</span>
      {onShow !== null && (
        <WordButton className={`${styles.show}`} onClick={onShow}>
          show
        </WordButton>
      )}
    </p>
  )
}

function AsOf() {
  const when = useWhen()
  const { hostTimeOf } = useActor()
  const lostAt = useLostAt()
  return <>Shown as of {when.short(hostTimeOf(lostAt ?? lastRead()))}.</>
}

function toDecideWords(prepared: number, refused: number): string {
  return [
    ...(refused > 0 ? [`${plural('thing', refused)} refused by the host.`] : []),
    ...(prepared > 0 ? [`${plural('gate', prepared)} prepared, not signed yet.`] : []),
  ].join(' ')
}
