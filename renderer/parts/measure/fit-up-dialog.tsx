import { useState } from 'react'
import type { CommandPayload } from '../../../domain/commands/command-shapes.ts'
import type { CarId, EdgeId, ReadingId } from '../../../domain/ids.ts'
import { judgeEdge } from '../../../domain/measure/gaps.ts'
import type { FitGroupView } from '../../../domain/views/shared-views.ts'
import { Button } from '../form/button.tsx'
import { Dialog } from '../form/dialog.tsx'
import { EdgeFields, emptyEdge, readGaps, type EdgeEntry } from './edge-fields.tsx'
import { newId } from '../form/new-id.ts'
import { Notice, RefusalNote } from '../form/notice.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'
import { ChoiceRow, NoteInput } from '../form/inputs.tsx'
import { PlainForm } from '../form/form.tsx'

type Kind = CommandPayload<'recordFitUp'>['kind']

/** One offering-up of a fit group: what was read on each edge, and whether it is good. */
export function FitUpDialog({
  carId,
  group,
  kind: usual,
  onClose,
}: {
  readonly carId: CarId
  readonly group: FitGroupView
  /** What is most likely meant. */
  readonly kind: Kind
  readonly onClose: () => void
}) {
  const command = useCommand()
  const [kind, setKind] = useState(usual)
  const [entries, setEntries] = useState<Readonly<Record<string, EdgeEntry>>>({})
  const [said, setSaid] = useState<'yes' | 'no' | null>(null)
  const [note, setNote] = useState('')
  const entryOf = (edgeId: string) => entries[edgeId] ?? emptyEdge
  const isInside = group.edges.every((edge) => {
    const gapsMm = readGaps(entryOf(edge.edgeId))
    return gapsMm.length > 0 && judgeEdge({ gapsMm, flushMm: entryOf(edge.edgeId).flushMm ?? 0 }, edge).inside
  })
  const hasBadFigure = Object.values(entries).some(({ gapsMm, flushMm }) =>
    [...gapsMm, flushMm].some(Number.isNaN),
  )
  const isGood = said === null ? isInside : said === 'yes'
  const notReady = group.members.filter((member) => !member.ready)

  const submit = async () => {
    if (hasBadFigure) return
    const readings = group.edges.flatMap(({ edgeId }) => {
      const entry = entryOf(edgeId)
      const gapsMm = readGaps(entry)
      return gapsMm.length === 0
        ? []
        : [{ edgeId: edgeId as EdgeId, gapsMm: [...gapsMm], flushMm: entry.flushMm ?? 0 }]
    })
    const outcome = await command.send({
      kind: 'recordFitUp',
      carId,
      payload: {
        readingId: newId<ReadingId>(),
        groupId: group.id,
        kind,
        readings,
        good: isGood,
        note,
      },
    })
    if (isSettled(outcome)) onClose()
  }

  return (
    <Dialog title={`Offer up: ${group.name}`} isOpen onClose={onClose} size="wide">
      <PlainForm onSubmit={submit}>
        <ChoiceRow label="Which fit is it?" choices={KINDS} value={kind} onChange={setKind} />
        <p className="small quiet">{KIND_HELP[kind]}</p>
        {kind === 'full' && notReady.length > 0 && (
          <Notice kind="held">
            <p className="strong">Not the whole group yet:</p>
            {notReady.map(({ id, name, why }) => (
              <p key={id}>
                {name} {why}
              </p>
            ))}
          </Notice>
        )}
        {group.edges.length === 0 && <p>This group has no edges to read; look at it and say how it fits.</p>}
        <div className="edges">
          {group.edges.map((edge) => (
            <EdgeFields
              key={edge.edgeId}
              edge={edge}
              entry={entryOf(edge.edgeId)}
              onChange={(entry) => setEntries({ ...entries, [edge.edgeId]: entry })}
            />
          ))}
        </div>
        <ChoiceRow
          label="Is the fit good?"
          hint={
            isInside
              ? 'Every edge is inside its tolerance.'
              : 'Not every edge is read and inside its tolerance.'
          }
          choices={GOOD}
          value={isGood ? 'yes' : 'no'}
          onChange={setSaid}
        />
        <NoteInput label="Note (may stay empty)" value={note} onChange={setNote} />
        {hasBadFigure && (
          <Notice kind="refused">
            One of the boxes holds no figure. Write it like 4.5, or empty the box.
          </Notice>
        )}
        <RefusalNote refusal={command.refusal} />
        <div className="button-row end">
          <Button onClick={onClose}>Cancel</Button>
          <Button kind="main" type="submit" aria-busy={command.isBusy}>
            {isGood ? 'Record a good fit' : 'Record a fit that is not good'}
          </Button>
        </div>
      </PlainForm>
    </Dialog>
  )
}

const KINDS: readonly { readonly value: Kind; readonly words: string }[] = [
  { value: 'full', words: 'the whole group' },
  { value: 'dry', words: 'dry, screws or clamps' },
  { value: 'check', words: 'read again after welding' },
]

const KIND_HELP: Readonly<Record<Kind, string>> = {
  full: 'Every member stands open and primed, or is welded already. This is the fit that trial-fitted asks for.',
  dry: 'At any time, to see where it goes. It passes nothing.',
  check: 'Gaps read again once the panel is welded.',
}

const GOOD = [
  { value: 'yes', words: 'good' },
  { value: 'no', words: 'not good' },
] as const
