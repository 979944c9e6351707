import { useState } from 'react'
import { photoUrl } from '../client.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { MarkedPhoto } from '../parts/photos/marked-photo.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { useRepair } from './repair-context.ts'
import { PlainForm } from '../parts/form/form.tsx'
import styles from './dialogs.module.css'

/** A caption for each photo; what was changed is sent at the end. */
export function CaptionsDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const when = useWhen()
  const command = useCommand()
  const [written, setWritten] = useState<Readonly<Record<string, string>>>({})

  const save = async () => {
    for (const { attachmentId, caption } of view.photos) {
      const words = written[attachmentId]
      if (words === undefined || words === caption) continue
      const payload = { attachmentId, caption: words }
      if (!isSettled(await command.send({ kind: 'setCaption', carId: view.car.carId, payload }))) return
    }
    onClose()
  }
  return (
    <Dialog title="Captions" isOpen onClose={onClose} size="wide">
      <PlainForm onSubmit={save}>
        <p className="quiet">They stand under the photos here and in the owner’s report.</p>
        <ul className="lines">
          {view.photos.map(({ attachmentId, sha256, caption, marks, taken, serves }) => (
            <li key={attachmentId} className={styles.captions}>
              <MarkedPhoto marks={marks} src={photoUrl(sha256, 'thumb')} alt="" loading="lazy" />
              <div className="stack-tight">
                <input
                  className="input"
                  aria-label={`Caption of the photo of ${when.dayAndTime(taken)}`}
                  value={written[attachmentId] ?? caption}
                  onChange={(event) => setWritten({ ...written, [attachmentId]: event.target.value })}
                />
                <span className="small quiet">
                  {[serves[0]?.shows, serves[0]?.gate].filter(Boolean).join(', ')}; {when.dayAndTime(taken)}
                </span>
              </div>
            </li>
          ))}
        </ul>
        <RefusalNote refusal={command.refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" type="submit" aria-busy={command.isBusy}>
            Save the captions
          </Button>
        </div>
      </PlainForm>
    </Dialog>
  )
}
