import { useState, type KeyboardEvent } from 'react'
import { Button, WordButton } from '../form/button.tsx'
import { type StripPhoto, justTaken } from './just-taken.ts'
import { RefusalNote } from '../form/notice.tsx'
import { onDemand } from '../frame/on-demand.tsx'
import type { GatePhoto } from './photo-aim.ts'
import { isSettled } from '../form/settled.ts'
import { shownWords, type ShownRepair } from './shown-words.ts'
import { useBlobUrl } from './use-blob-url.ts'
import { type CommandState, useCommand } from '../form/use-command.ts'
import type { PhotoChange } from '../../outbox/waiting-change.ts'
import styles from './taken-strip.module.css'

const MarkDialog = onDemand(async () => (await import('./mark-dialog.tsx')).MarkDialog)
const ShowsDialog = onDemand(async () => (await import('./shows-dialog.tsx')).ShowsDialog)

/** A caption, marks, and what the photo shows: each may be left. What is said of a photo that waits goes out after it. */
export function SayOfPhoto({
  photo,
  all,
  repair,
}: {
  readonly photo: StripPhoto
  readonly all: readonly StripPhoto[]
  /** The one that one stands at; null away from any. */
  readonly repair: ShownRepair | null
}) {
  const command = useCommand()
  const captions = useCommand()
  const [doing, setDoing] = useState<'marks' | 'shows' | null>(null)
  const shows = showsOf(photo, repair)
  const alike = all.filter((other) => other !== photo && showsOf(other, repair) !== null)
  const words = shownWords(photo.serves, repair?.layers ?? [])
  const say = async (change: PhotoChange, photos: readonly StripPhoto[] = [photo]) => {
    for (const each of photos) if (!(await sayOf(command, each, change))) return
    setDoing(null)
  }
  // Another caption may be typed, or marks drawn, before this one is answered.
  const caption = (words: string) => void sayOf(captions, photo, { caption: words })
  return (
    <div className={styles.say}>
      <div className={styles.line}>
        <Caption caption={photo.caption} onSay={caption} />
        <Button onClick={() => setDoing('marks')}>Draw on it</Button>
      </div>
      {shows === null ? (
        <span className="small quiet">shows {words}</span>
      ) : (
        <WordButton className="small" onClick={() => setDoing('shows')}>
          shows {words}
        </WordButton>
      )}
      <RefusalNote refusal={captions.refusal} />
      {doing === 'marks' && (
        <MarkOwnPhoto
          photo={photo}
          command={command}
          onSave={(marks) => void say({ marks })}
          onClose={() => setDoing(null)}
        />
      )}
      {doing === 'shows' && shows !== null && repair !== null && (
        <ShowsDialog
          value={shows}
          layers={repair.layers}
          others={alike.length}
          refusal={command.refusal}
          onChoose={(chosen, of) =>
            void say({ serves: [chosen] }, of === 'all' ? [photo, ...alike] : [photo])
          }
          onClose={() => setDoing(null)}
        />
      )}
    </div>
  )
}

/** Null for one that shows several things at once, which was aimed with care, and for one of other work. */
function showsOf({ serves }: StripPhoto, repair: ShownRepair | null): GatePhoto | null {
  const [first] = serves
  return serves.length === 1 && first?.what === 'gate' && first.repairId === repair?.repairId ? first : null
}

/** Written when the field is left, or with Enter. */
function Caption({
  caption,
  onSay,
}: {
  readonly caption: string
  readonly onSay: (caption: string) => void
}) {
  const [typed, setTyped] = useState(caption)
  const keep = () => {
    if (typed.trim() !== caption) onSay(typed.trim())
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== 'Enter') return
    // The strip may stand within a form, which is not finished by a caption.
    event.preventDefault()
    keep()
  }
  return (
    <input
      className="input"
      aria-label="Caption of the photo"
      placeholder="Caption, if it needs one"
      enterKeyHint="done"
      value={typed}
      onChange={(event) => setTyped(event.target.value)}
      onBlur={keep}
      onKeyDown={onKeyDown}
    />
  )
}

function MarkOwnPhoto({
  photo,
  command,
  onSave,
  onClose,
}: {
  readonly photo: StripPhoto
  readonly command: CommandState
  readonly onSave: (marks: StripPhoto['marks']) => void
  readonly onClose: () => void
}) {
  const url = useBlobUrl(photo.bytes)
  if (url === undefined) return null
  return (
    <MarkDialog
      src={url}
      words={photo.caption || photo.name}
      marks={photo.marks}
      refusal={command.refusal}
      isBusy={command.isBusy}
      onSave={onSave}
      onClose={onClose}
    />
  )
}

/** False when it was refused. */
async function sayOf(command: CommandState, photo: StripPhoto, change: PhotoChange): Promise<boolean> {
  const { attachmentId, carId } = photo
  const { caption, marks, serves } = change
  const outcome = await (caption !== undefined
    ? command.send({ kind: 'setCaption', carId, payload: { attachmentId, caption } })
    : marks !== undefined
      ? command.send({ kind: 'markPhoto', carId, payload: { attachmentId, marks } })
      : command.send({
          kind: 'setPhotoShows',
          carId,
          payload: { attachmentId, serves: [...(serves ?? photo.serves)] },
        }))
  const isSaid = isSettled(outcome)
  if (isSaid) justTaken.change(attachmentId, change)
  return isSaid
}
