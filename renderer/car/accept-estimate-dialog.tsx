import { z } from 'zod'
import { ANSWERED_BY } from '../../domain/facts/agreement-facts.ts'
import { optionalNoteSchema, type Payer } from '../../domain/facts/shapes.ts'
import { lineIdSchema } from '../../domain/ids.ts'
import { hours, plural } from '../../domain/text/words.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/dialog.tsx'
import { ChoiceField, ManyField, NoteField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { isSettled } from '../parts/settled.ts'
import { useCommand } from '../parts/use-command.ts'

const schema = z.object({
  lineIds: z.array(lineIdSchema).min(1, 'Choose what is accepted.'),
  how: z.enum(ANSWERED_BY),
  note: optionalNoteSchema,
})

/** What a payer has accepted, and how they said so. Part of it may be accepted first. */
export function AcceptEstimateDialog({
  view,
  payer,
  onClose,
}: {
  readonly view: CarView
  readonly payer: Payer
  readonly onClose: () => void
}) {
  const command = useCommand()
  const { carId, visitId } = view.header
  const open = view.estimate.filter((line) => line.payer === payer && !line.accepted)
  const form = useZodForm(schema, { lineIds: open.map(({ lineId }) => lineId), how: 'letter', note: '' })
  return (
    <Dialog title={`The ${payer} accepts`} isOpen onClose={onClose} size="wide">
      <Form
        form={form}
        submit="Go on to the code"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ lineIds, how, note }) => {
          if (visitId === null) return
          const total = open
            .filter(({ lineId }) => lineIds.includes(lineId))
            .reduce((sum, line) => sum + line.agreed, 0)
          const outcome = await command.send({
            kind: 'acceptEstimate',
            carId,
            payload: { visitId, payer, lineIds, how, note },
            sign: {
              title: `The ${payer} accepts`,
              says: [
                `${plural('line', lineIds.length)}, ${hours(total)}`,
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
          label="What is accepted"
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
