import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { client, queryClient } from '../client.ts'
import { useActor } from '../parts/sign/actor.tsx'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { FileField } from '../parts/form/file-field.tsx'
import { answered } from '../parts/frame/answered.ts'
import { newId } from '../parts/form/new-id.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import styles from './import-dialog.module.css'

type Import = Parameters<typeof client.importPreview.mutate>[0]
type Kind = Import['kind']
type Preview = Extract<Awaited<ReturnType<typeof client.importPreview.mutate>>, { readonly ok: true }>

type Answer = { readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }

interface KindOfFile {
  readonly value: Kind
  readonly words: string
  readonly columns: string
  /** Address of an example with invented lines. */
  readonly example: string
  /** What must be there before the example comes in as it is; null when it rests on nothing. */
  readonly needs: string | null
}

const KINDS: readonly [KindOfFile, ...KindOfFile[]] = [
  {
    value: 'cars',
    words: 'cars',
    columns:
      'shell number, name, body, owner; and as you like: year, phone, email, address, promised, priority, status, charge',
    example: new URL('./samples/cars.csv', import.meta.url).href,
    needs: null,
  },
  {
    value: 'repairs',
    words: 'repairs',
    columns:
      'shell number, repair type; and as you like: name, side, place, payer, covers, and hours under the name of each gate',
    example: new URL('./samples/repairs.csv', import.meta.url).href,
    needs: 'the example of cars and the usual repair types',
  },
  {
    value: 'hours',
    words: 'hours',
    columns:
      'person, date, hours or from and to; shell number with repair and gate, or task; or workshop work; rework cause, note',
    example: new URL('./samples/hours.csv', import.meta.url).href,
    needs: 'the examples of cars and repairs, and two people, Iris Vane and Noel Harrow',
  },
]

/** Cars, repairs or hours from a CSV file: first every line in words, with what is wrong in it; then all of it or nothing. */
export function ImportDialog({ onClose }: { readonly onClose: () => void }) {
  const { askManager } = useActor()
  const [kind, setKind] = useState<Kind>('cars')
  const [file, setFile] = useState<Import | null>(null)
  const [preview, setPreview] = useState<Preview | null>(null)
  const [refusal, setRefusal] = useState<Refusal | null>(null)
  const [brought, setBrought] = useState<number | null>(null)

  /** Null when nobody has signed in, or when it was refused. */
  const ask = async <A extends Answer>(call: () => Promise<A>): Promise<Extract<A, { ok: true }> | null> => {
    setRefusal(null)
    if ((await askManager()) === null) return null
    const answer: Answer = await answered(call, WHEN_BACK, cannotRead)
    if (answer.ok) return answer as Extract<A, { ok: true }>
    setRefusal(answer.refusal)
    return null
  }
  const read = async (chosen: File) => {
    setPreview(null)
    setBrought(null)
    const wanted = { kind, text: await chosen.text(), importId: newId() }
    setFile(wanted)
    setPreview(await ask(() => client.importPreview.mutate(wanted)))
  }
  const bringIn = async (wanted: Import) => {
    const answer = await ask(() => client.importCommit.mutate(wanted))
    if (answer === null) return
    setBrought(answer.lines)
    setPreview(null)
    await queryClient.invalidateQueries()
  }
  const chosenKind = KINDS.find(({ value }) => value === kind) ?? KINDS[0]
  return (
    <Dialog title="Bring in a CSV file" isOpen onClose={onClose} size="wide">
      <div className="form">
        <ChoiceRow label="What the file holds" choices={KINDS} value={kind} onChange={setKind} />
        <p className="quiet small">
          First line: the names of the columns. {chosenKind.columns}. Saved as UTF-8, with commas, semicolons
          or tabs between the cells.{' '}
          <a className="reaching" href={chosenKind.example} download={`example-${kind}.csv`}>
            Save an example of {chosenKind.words} to start from
          </a>
          : put your lines in the place of its invented ones.
          {chosenKind.needs !== null && ` As it stands it needs ${chosenKind.needs}.`}
        </p>
        <FileField label="File" accept=".csv,.tsv,.txt,text/csv" onPick={(file) => void read(file)} />
        <RefusalNote refusal={refusal} />
        {preview !== null && <PreviewList preview={preview} />}
        {brought !== null && (
          <Notice kind="done">
            <p>{plural('line', brought)} brought in.</p>
          </Notice>
        )}
        <div className="button-row end">
          <Button onClick={onClose}>{brought === null ? 'Cancel' : 'Close'}</Button>
          {preview !== null && file !== null && (
            <Button kind="main" disabled={!preview.ready} onClick={() => void bringIn(file)}>
              Bring in {plural('line', preview.lines.length)}
            </Button>
          )}
        </div>
      </div>
    </Dialog>
  )
}

function PreviewList({ preview }: { readonly preview: Preview }) {
  const bad = preview.lines.filter((line) => line.problems.length > 0)
  return (
    <>
      <Notice kind={preview.ready ? 'done' : 'refused'}>
        <p>
          {preview.ready
            ? `All ${plural('line', preview.lines.length)} can be brought in.`
            : `${plural('line', bad.length)} of ${preview.lines.length} must be mended in the file; nothing is brought in by halves.`}
        </p>
      </Notice>
      <ol className={`lines ${styles.preview}`}>
        {[...bad, ...preview.lines.filter((line) => line.problems.length === 0)].map((line) => (
          <li key={line.line} className={styles.line}>
            <span className="quiet">line {line.line}</span>
            <span>
              {line.summary}
              {line.problems.map((problem) => (
                <span key={`${problem.column}${problem.message}`} className={styles.problem}>
                  {problem.column !== null && <span className="strong">{problem.column}: </span>}
                  {problem.message} {problem.next}
                </span>
              ))}
            </span>
          </li>
        ))}
      </ol>
    </>
  )
}

const WHEN_BACK = 'Nothing was brought in; try again when the connection is back.'

const cannotRead = (error: unknown): Refusal => ({
  code: 'bad-input',
  message: error instanceof Error ? error.message : 'This file could not be read.',
  next: 'Choose the file again.',
})
