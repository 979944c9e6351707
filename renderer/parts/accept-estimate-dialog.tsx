import { z } from 'zod'
import { ANSWERED_BY } from '../../domain/facts/agreement-facts.ts'
import { optionalNoteSchema, type Payer } from '../../domain/facts/shapes.ts'
import { lineIdSchema } from '../../domain/ids.ts'
import { hours, plural } from '../../domain/text/words.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from './dialog.tsx'
import { ChoiceField, ManyField, NoteField } from './fields.tsx'
import { Form, useZodForm } from './form.tsx'
import { EmptyState } from './notice.tsx'
import { isSettled } from './settled.ts'
import { useCommand } from './use-command.ts'

const schema = z.object({
  lineIds: z.array(lineIdSchema).min(1, 'Choose what is accepted.'),
  how: z.enum(ANSWERED_BY),
  note: optionalNoteSchema,
})

/** What a payer has accepted of the estimate, and how they said so. Part of it may be accepted first. */
export function AcceptEstimateDialog({
  view,
  payer,
  onClose,
}: {
  readonly view: Pick<CarView, 'header' | 'estimate'>
  readonly payer: Payer
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { carId, visitId, name } = view.header
  const open = view.estimate.filter((line) => line.payer === payer && !line.accepted)
  const form = useZodForm(schema, { lineIds: open.map(({ lineId }) => lineId), how: 'letter', note: '' })
  const chosen = form.watch('lineIds')
  const total = open
    .filter(({ lineId }) => chosen.includes(lineId))
    .reduce((sum, { agreed }) => sum + agreed, 0)
  const title = `${name}: the ${payer} accepts`
  if (visitId === null || open.length === 0) {
    return (
      <Dialog title={title} isOpen onClose={onClose}>
        <EmptyState title="Nothing waits">Every line of this payer is accepted already.</EmptyState>
      </Dialog>
    )
  }
  return (
    <Dialog title={title} isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit="Go on to the code"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ lineIds, how, note }) => {
          const outcome = await command.send({
            kind: 'acceptEstimate',
            carId,
            payload: { visitId, payer, lineIds, costIds: [], how, note },
            sign: {
              title,
              says: [
                `${plural('line', lineIds.length)} of the estimate, ${hours(total)}`,
                `Answered by ${how}`,
                ...(note === '' ? [] : [note]),
              ],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <ChoiceField
          control={form.control}
          name="how"
          label="How the answer came"
          choices={ANSWERED_BY.map((value) => ({ value, words: value }))}
        />
        <ManyField
          control={form.control}
          name="lineIds"
          label={`What is accepted: ${hours(total)}`}
          choices={open.map(({ lineId, what, agreed }) => ({
            value: lineId,
            words: `${what}, ${hours(agreed)}`,
          }))}
        />
        <NoteField control={form.control} name="note" label="Note (may stay empty)" />
      </Form>
    </Dialog>
  )
}
