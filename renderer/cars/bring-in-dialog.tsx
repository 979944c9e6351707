import { Link } from '@tanstack/react-router'
import { useEffect, useRef, useState } from 'react'
import { carFacts } from '../../domain/facts/car-facts.ts'
import type { CarId, CommandId } from '../../domain/ids.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { CAR_FILE_ACCEPT, CAR_FILE_ENDING } from '../../domain/report/car-file-name.ts'
import { client, queryClient, sendCarFile } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextInput } from '../parts/form/inputs.tsx'
import { FileField } from '../parts/form/file-field.tsx'
import { answered } from '../parts/frame/answered.ts'
import { newId } from '../parts/form/new-id.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { BringInPreviewList, type CameFile } from './bring-in-preview.tsx'

/** How far it is. `commandId` stays with the file, so that a word that was sent twice counts once. */
type Step =
  | { readonly at: 'choose' }
  /** Share of the bytes that have left; at 1 the host verifies them. */
  | { readonly at: 'sending'; readonly share: number }
  | { readonly at: 'shown'; readonly came: CameFile; readonly commandId: CommandId }
  | { readonly at: 'bringing in'; readonly came: CameFile; readonly commandId: CommandId }
  | { readonly at: 'in'; readonly came: CameFile; readonly carId: CarId }

const ASK_AGAIN_MS = 1_000

/** A car of another workshop from its file: sent and verified first, shown, then brought in as a whole or not at all. */
export function BringInDialog({ onClose }: { readonly onClose: () => void }) {
  const { askManager } = useActor()
  const [step, setStep] = useState<Step>({ at: 'choose' })
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [shellNumber, setShellNumber] = useState('')
  const stop = useRef<AbortController | null>(null)
  const fileId = 'came' in step ? step.came.fileId : null

  const close = () => {
    stop.current?.abort()
    if (fileId !== null && step.at !== 'bringing in')
      void answered(() => client.dropCameFile.mutate({ fileId }))
    onClose()
  }

  const send = async (file: File) => {
    setRefusal(null)
    if ((await askManager()) === null) return
    stop.current?.abort()
    const sending = new AbortController()
    stop.current = sending
    setStep({ at: 'sending', share: 0 })
    const onShare = (share: number) => setStep({ at: 'sending', share })
    const answer = await answered(() => sendCarFile(file, onShare, sending.signal), WHEN_BACK)
    if (answer.ok) return setStep({ at: 'shown', came: answer, commandId: newId<CommandId>() })
    setRefusal(answer.refusal)
    setStep({ at: 'choose' })
  }

  const bringIn = async ({ came, commandId }: Extract<Step, { at: 'shown' }>) => {
    const number = came.preview.needsNumber ? shellNumber.trim() : null
    setRefusal(number === null ? null : numberRefusal(number))
    if (number !== null && numberRefusal(number) !== null) return
    if ((await askManager()) === null) return
    setStep({ at: 'bringing in', came, commandId })
    const order = { fileId: came.fileId, commandId, shellNumber: number }
    const answer = await answered(
      () => client.bringInCar.mutate(order),
      WHEN_BACK,
      () => unknownProblem,
    )
    if (answer.ok) {
      await queryClient.invalidateQueries()
      return setStep({ at: 'in', came, carId: answer.carId })
    }
    setRefusal(answer.refusal)
    setStep({ at: 'shown', came, commandId })
  }

  return (
    <Dialog title="Bring in a car’s file" isOpen onClose={close} size="wide">
      <div className="form">
        {(step.at === 'choose' || step.at === 'shown') && <FilePick onPick={(file) => void send(file)} />}
        {step.at === 'sending' && <Sending share={step.share} />}
        {'came' in step && step.at !== 'in' && <BringInPreviewList preview={step.came.preview} />}
        {step.at === 'shown' && step.came.preview.needsNumber && (
          <TextInput
            label="Another shell number"
            value={shellNumber}
            maxLength={24}
            onChange={setShellNumber}
          />
        )}
        {step.at === 'bringing in' && <PhotosComing came={step.came} />}
        <RefusalNote refusal={refusal} />
        {step.at === 'in' && <IsIn carId={step.carId} name={step.came.preview.name} />}
        <div className="button-row end">
          <Button onClick={close}>{step.at === 'in' ? 'Close' : 'Cancel'}</Button>
          {step.at === 'shown' && (
            <Button
              kind="main"
              disabled={step.came.preview.refusal !== null && !step.came.preview.needsNumber}
              onClick={() => void bringIn(step)}
            >
              Bring in
            </Button>
          )}
        </div>
      </div>
    </Dialog>
  )
}

function FilePick({ onPick }: { readonly onPick: (file: File) => void }) {
  return (
    <>
      <p className="quiet small">
        Another workshop with Panelwright gives a car away as one {CAR_FILE_ENDING} or .zip, under ‘The car’s
        file’. Its history comes in as it was recorded there: repairs, grades, findings, gates, readings and
        photos. Its hours and money count in no figure of this workshop.
      </p>
      <FileField label="File" accept={CAR_FILE_ACCEPT} onPick={onPick} />
    </>
  )
}

function Sending({ share }: { readonly share: number }) {
  return (
    <div className="stack-tight" role="status">
      <p>
        {share < 1
          ? `Sending the file: ${Math.floor(share * 100)} %`
          : 'Verifying every file and line in it.'}
      </p>
      {share < 1 ? (
        <progress className="progress" max={1} value={share} aria-label="The file sent" />
      ) : (
        <progress className="progress" aria-label="The file is being verified" />
      )}
    </div>
  )
}

function PhotosComing({ came }: { readonly came: CameFile }) {
  const [{ done, of }, setProgress] = useState({ done: 0, of: came.preview.photos })
  useEffect(() => {
    const ask = () =>
      client.bringInProgress.query({ fileId: came.fileId }).then(
        (progress) => progress && setProgress(progress),
        // The answer to the bringing in itself says what is wrong.
        () => undefined,
      )
    const timer = setInterval(() => void ask(), ASK_AGAIN_MS)
    return () => clearInterval(timer)
  }, [came.fileId])
  return (
    <div className="stack-tight">
      <p>
        Storing photos: {done} of {of}
      </p>
      <progress className="progress" max={Math.max(1, of)} value={done} aria-label="Photos stored" />
    </div>
  )
}

function IsIn({ carId, name }: { readonly carId: CarId; readonly name: string }) {
  return (
    <Notice kind="done">
      <p className="strong">{name} is in.</p>
      <p>
        Open a visit on{' '}
        <Link to="/cars/$carId" params={{ carId }}>
          its page
        </Link>{' '}
        when work on it is to begin here. Who owns it is kept among Contacts.
      </p>
    </Notice>
  )
}

function numberRefusal(number: string): Refusal | null {
  const parsed = carFacts.carAdded.shape.shellNumber.safeParse(number)
  if (parsed.success) return null
  return {
    code: 'bad-input',
    message: parsed.error.issues[0]?.message ?? 'This is no shell number.',
    next: 'Give the car a shell number that no other car here has.',
  }
}

const WHEN_BACK = 'Try again when the connection is back; what is in already is not brought in twice.'
const unknownProblem: Refusal = {
  code: 'storage',
  message: 'The car could not be brought in.',
  next: 'Try again; if it stays so, look at the window where Panelwright was started.',
}
