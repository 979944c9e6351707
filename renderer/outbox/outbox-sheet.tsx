import { useState, type ReactNode } from 'react'
import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { RepairId } from '../../domain/ids.ts'
import { plural } from '../../domain/text/words.ts'
import type { PhotoInOutbox, RefusedCommand } from './board.ts'
import type { KeptCommand } from './kept.ts'
import type { Told } from './told.ts'
import { canBeEnteredAgain, enterAgain } from './enter-again.ts'
import { outbox, useOutbox } from './outbox.ts'
import { persistenceRead, persistenceToTell } from './persistence.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { Notice } from '../parts/form/notice.tsx'
import styles from './outbox-sheet.module.css'
import { OpenRepair, Prepared } from './prepared-gates.tsx'
import { PutAside } from '../parts/form/put-aside.tsx'
import { useBlobUrl } from '../parts/photos/use-blob-url.ts'
import { useWhen } from '../parts/frame/when.tsx'

/** Everything that this device keeps and the host does not have yet, in words. */
export function OutboxSheet({ onClose }: { readonly onClose: () => void }) {
  const { commands, refused, photos, prepared, away } = useOutbox()
  const refusedPhotos = photos.filter(({ state }) => state === 'refused')
  const waitingPhotos = photos.filter(({ state }) => state !== 'refused')
  const isEmpty = commands.length + refused.length + photos.length + prepared.length === 0
  return (
    <Dialog title="On this device" isOpen onClose={onClose}>
      {isEmpty && <p>Nothing waits here: the host has everything that was entered on this device.</p>}
      <Part title={`${plural('thing', refused.length + refusedPhotos.length)} refused`}>
        {refused.map((kept) => (
          <Refused key={kept.command.id} kept={kept} onOpen={onClose} />
        ))}
        {refusedPhotos.map((photo) => (
          <RefusedPhoto key={photo.attachmentId} photo={photo} onOpen={onClose} />
        ))}
      </Part>
      <Part title={`${plural('gate', prepared.length)} to be signed`}>
        {prepared.map((gate) => (
          <Prepared key={gate.command.id} gate={gate} onOpen={onClose} />
        ))}
      </Part>
      <Part
        title={away ? 'Waits until the host answers' : 'On its way to the host'}
        note="Sent by itself, each once. The times are those at which it was entered."
      >
        {commands.map((kept) => (
          <div key={kept.command.id} className={styles.thing}>
            <What told={kept.told} kind={kept.command.kind} stated={kept.stated} />
          </div>
        ))}
        {waitingPhotos.map((photo) => (
          <WaitingPhoto key={photo.attachmentId} photo={photo} />
        ))}
      </Part>
      <Persistence />
    </Dialog>
  )
}

function Part({
  title,
  note,
  children,
}: {
  readonly title: string
  readonly note?: string
  readonly children: readonly (readonly ReactNode[] | ReactNode)[] | ReactNode
}) {
  if (Array.isArray(children) && children.flat().length === 0) return null
  return (
    <section className="stack-tight">
      <h3>{title}</h3>
      {note !== undefined && <p className="small quiet">{note}</p>}
      <div className="lines">{children}</div>
    </section>
  )
}

/** What was entered, on what, when and by whom. */
function What({
  told,
  kind,
  stated,
}: {
  readonly told: Told | null
  readonly kind: string
  readonly stated: string
}) {
  const when = useWhen()
  const at = when.short(Date.parse(stated))
  return (
    <div>
      <p className="strong">{told?.what ?? kind}</p>
      <p className="small quiet">
        {[told?.where ?? '', told?.by ?? '', at].filter((words) => words !== '').join(' · ')}
      </p>
    </div>
  )
}

function Refused({ kept, onOpen }: { readonly kept: RefusedCommand; readonly onOpen: () => void }) {
  const { command, told, stated, refusal, refusedWith } = kept
  const repairId = repairOf(kept)
  return (
    <div className={styles.thing}>
      <What told={told} kind={command.kind} stated={stated} />
      <Notice kind="refused">
        <p className="strong">
          {refusedWith === null ? `The host refused it: ${refusal.message}` : refusal.message}
        </p>
        <p>{refusal.next}</p>
      </Notice>
      {refusedWith === null && (
        <div className={styles.acts}>
          <Button onClick={() => void outbox.retryCommand(command.id)}>Send it again</Button>
          {repairId !== null && command.carId !== null && (
            <OpenRepair
              carId={command.carId}
              repairId={repairId}
              words={canBeEnteredAgain(command) ? 'Enter it again' : 'Open the repair'}
              onOpen={() => {
                if (canBeEnteredAgain(command)) enterAgain.start(command)
                onOpen()
              }}
            />
          )}
          <PutAside
            words="It was not recorded, nor was what rests on it."
            onPutAside={() => void outbox.dismissCommand(command.id)}
          />
        </div>
      )}
    </div>
  )
}

function WaitingPhoto({ photo }: { readonly photo: PhotoInOutbox }) {
  return (
    <div className={`${styles.thing} photo-way`}>
      <Picture bytes={photo.bytes} />
      <div className="stack-tight">
        <What told={photo.told} kind={photo.name} stated={photo.stated} />
        {photo.state === 'sending' && (
          <progress className="progress" max={1} value={photo.sent} aria-label={`${photo.name} sent`} />
        )}
      </div>
    </div>
  )
}

function RefusedPhoto({ photo, onOpen }: { readonly photo: PhotoInOutbox; readonly onOpen: () => void }) {
  const url = useBlobUrl(photo.bytes)
  const served = photo.serves.find((each) => each.what === 'gate')
  return (
    <div className={styles.thing}>
      <div className="photo-way">
        <Picture bytes={photo.bytes} />
        <What told={photo.told} kind={photo.name} stated={photo.stated} />
      </div>
      {photo.refusal !== null && (
        <Notice kind="refused">
          <p className="strong">The host refused it: {photo.refusal.message}</p>
          <p>{photo.refusal.next}</p>
        </Notice>
      )}
      <div className={styles.acts}>
        <Button onClick={() => void outbox.retryPhoto(photo.attachmentId)}>Send it again</Button>
        <a className="button" href={url} download={photo.name}>
          Save it as a file
        </a>
        {served !== undefined && (
          <OpenRepair carId={photo.carId} repairId={served.repairId} onOpen={onOpen} />
        )}
        <PutAside
          words="The workshop does not have this photo, nor what was entered about it."
          onPutAside={() => void outbox.dismissPhoto(photo.attachmentId)}
        />
      </div>
    </div>
  )
}

function Picture({ bytes }: { readonly bytes: Blob }) {
  const url = useBlobUrl(bytes)
  return <img className="photo-small" src={url} alt="" width={64} height={48} />
}

/** Said once, and only here: nobody can do much about it at the car. */
function Persistence() {
  const [toTell, setToTell] = useState(persistenceToTell)
  if (toTell === null) return null
  return (
    <Notice>
      <p>
        {toTell === 'refused'
          ? 'The browser has not promised to keep these things when the device runs short of space. They are safe as long as there is some left.'
          : 'Without encryption the browser cannot promise to keep these things when the device runs short of space.'}{' '}
        Come within reach of the host from time to time, so that they are sent.
      </p>
      <WordButton
        onClick={() => {
          persistenceRead()
          setToTell(null)
        }}
      >
        I have read this
      </WordButton>
    </Notice>
  )
}

function repairOf({ command: { payload } }: KeptCommand): RepairId | null {
  if (typeof payload !== 'object' || payload === null) return null
  const { repairId, repairIds, on } = payload as Partial<
    CommandPayload<'gradeLayer'> & CommandPayload<'readConditions'> & CommandPayload<'startClock'>
  >
  const clocked = on?.kind === 'work' ? on.targets.find((target) => target.kind === 'gate') : undefined
  return repairId ?? repairIds?.[0] ?? clocked?.repairId ?? null
}
