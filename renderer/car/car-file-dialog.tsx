import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { NOTHING_MORE, type FileChoices } from '../../domain/report/file-choices.ts'
import { CAR_FILE_ENDING } from '../../domain/report/car-file-name.ts'
import { bytesWords, plural } from '../../domain/text/words.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api, client } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { answered } from '../parts/frame/answered.ts'
import { hostAway } from '../parts/frame/host-away.ts'
import { newId } from '../parts/form/new-id.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { saveFile } from '../parts/frame/save-file.ts'
import { CheckInput } from '../parts/form/inputs.tsx'
import { UnderWay } from '../parts/frame/under-way.tsx'

type Progress = Awaited<ReturnType<typeof client.carFileProgress.query>>

const ASK_AGAIN_MS = 500

const TICKS: readonly { readonly of: keyof FileChoices; readonly words: string; readonly adds: string }[] = [
  {
    of: 'contacts',
    words: 'Owner and payers',
    adds: 'Names, addresses, telephone numbers and e-mail of the owner and whoever else pays.',
  },
  {
    of: 'prices',
    words: 'Prices',
    adds: 'What parts, materials and outside work were to cost and did cost, and what was agreed of it.',
  },
  {
    of: 'hours',
    words: 'Hours of each person',
    adds: 'Who worked on what, when their clock ran, and for how long.',
  },
]

/** All that is recorded of a shell, to hand on: what leaves with it, the book or the whole file, and how far that is. */
export function CarFileDialog({
  view,
  isHandover,
  onClose,
}: {
  readonly view: CarView
  /** Offered as the car is handed over. */
  readonly isHandover: boolean
  readonly onClose: () => void
}) {
  const { askManager } = useActor()
  const [choices, setChoices] = useState(NOTHING_MORE)
  const [watch, setWatch] = useState<string | null>(null)
  const progress = useProgress(watch)
  const { carId } = view.header
  const save = async (as: Asked['as']) => {
    if (progress.isUnderWay || (await askManager()) === null) return
    const watched = newId<string>()
    setWatch(watched)
    saveFile(addressOf({ carId, as, watch: watched, choices }))
  }
  return (
    <Dialog title="The car’s file" isOpen onClose={onClose}>
      <div className="stack">
        <p>{aboutWords(view, isHandover)}</p>
        <Ticks choices={choices} onChange={setChoices} />
        <p className="small quiet">
          {hasAll(choices)
            ? 'The letters to the owner go with the file.'
            : 'The letters to the owner stay here, as they hold all three. What stays here is left in the record as a seal, so that the rest can still be verified.'}
        </p>
        <Notice kind="caution">
          <p>
            <strong>Mind:</strong> notes, reasons and captions leave as people wrote them, photos with the
            place where the camera noted it. Read the book before you hand it on.
          </p>
        </Notice>
        {watch !== null && <HowFar watch={watch} {...progress} />}
        <div className="button-row end">
          {FILES.map(({ as, words }) => (
            <Button
              key={as}
              kind={as === 'zip' ? 'main' : 'plain'}
              aria-disabled={progress.isUnderWay}
              onClick={() => void save(as)}
            >
              {words}
            </Button>
          ))}
        </div>
      </div>
    </Dialog>
  )
}

function aboutWords({ header, photos }: CarView, isHandover: boolean): string {
  const what = `all that is recorded of the shell of ${header.name}, with ${plural('photo', photos.length)}`
  const how =
    'The book is for reading and printing; the file holds the book, the photos as they were taken and the record itself, and can be read and verified without Panelwright.'
  return isHandover
    ? `The car is handed over. Its file can go with it: ${what}. ${how}`
    : `This is ${what}, for the owner, an inspector or the next buyer. ${how}`
}

function Ticks({
  choices,
  onChange,
}: {
  readonly choices: FileChoices
  readonly onChange: (choices: FileChoices) => void
}) {
  return (
    <fieldset className="field">
      <legend>It leaves without these, unless you tick them</legend>
      <div className="stack-tight">
        {TICKS.map(({ of, words, adds }) => (
          <CheckInput
            key={of}
            label={words}
            hint={adds}
            value={choices[of]}
            onChange={(isTicked) => onChange({ ...choices, [of]: isTicked })}
          />
        ))}
      </div>
    </fieldset>
  )
}

interface Followed {
  /** Null before the host has begun. */
  readonly progress: Progress
  readonly isAway: boolean
  readonly isUnderWay: boolean
}

function useProgress(watch: string | null): Followed {
  const { data = null, isError } = useQuery({
    ...api.carFileProgress.queryOptions({ watch: watch ?? '' }),
    enabled: watch !== null,
    refetchInterval: ({ state }) => (isOver(state.data ?? null) ? false : ASK_AGAIN_MS),
  })
  return { progress: data, isAway: isError, isUnderWay: watch !== null && !isError && !isOver(data) }
}

const isOver = (progress: Progress): boolean =>
  progress?.doing === 'finished' || progress?.doing === 'refused'

function HowFar({ watch, progress, isAway, isUnderWay }: Followed & { readonly watch: string }) {
  if (isAway) return <RefusalNote refusal={hostAway()} />
  if (progress?.doing === 'refused') return <RefusalNote refusal={progress.refusal} />
  if (progress?.doing === 'finished')
    return (
      <Notice kind="done">
        <p>Saved: {bytesWords(progress.bytes)}.</p>
      </Notice>
    )
  return (
    <div className="stack-tight">
      <UnderWay label="The car’s file" done={progress?.done} of={progress?.of}>
        {underWayWords(progress)}
      </UnderWay>
      {isUnderWay && (
        <div className="button-row">
          <Button onClick={() => void answered(() => client.stopCarFile.mutate({ watch }))}>Stop</Button>
        </div>
      )}
    </div>
  )
}

function underWayWords(progress: Exclude<Progress, { readonly doing: 'finished' | 'refused' }>): string {
  if (progress === null) return 'Asked for.'
  if (progress.doing === 'files')
    return `${bytesWords(progress.done)} of about ${bytesWords(Math.max(progress.done, progress.of))} saved.`
  return progress.of === 0
    ? 'The book is being written.'
    : `The book is being written: ${progress.done} of ${plural('photo', progress.of)} set.`
}

const hasAll = ({ contacts, prices, hours }: FileChoices): boolean => contacts && prices && hours

interface Asked {
  readonly carId: string
  /** The last two are the same file; the second one opens in Panelwright. */
  readonly as: 'pdf' | 'zip' | 'panelcar'
  readonly watch: string
  readonly choices: FileChoices
}

const FILES: readonly { readonly as: Asked['as']; readonly words: string }[] = [
  { as: 'pdf', words: 'Save the book (PDF)' },
  { as: 'panelcar', words: `For another Panelwright (${CAR_FILE_ENDING})` },
  { as: 'zip', words: 'Save the file (.zip)' },
]

function addressOf({ carId, as, watch, choices }: Asked): string {
  const query = new URLSearchParams({ watch })
  for (const { of } of TICKS) if (choices[of]) query.set(of, '1')
  return `/car-files/${carId}.${as}?${query.toString()}`
}
