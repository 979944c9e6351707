import { isSettled } from '../parts/settled.ts'
import { z } from 'zod'
import { nameSchema, noteSchema } from '../../domain/facts/shapes.ts'
import { holdScopeSchema, type HoldScope } from '../../domain/facts/work-facts.ts'
import type { HoldId } from '../../domain/ids.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/dialog.tsx'
import { DateField, NoteField, SelectField, TextField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { newId } from '../parts/new-id.ts'
import { useCommand } from '../parts/use-command.ts'

const schema = z.object({
  on: z.string().min(1, 'Choose what is held.'),
  words: noteSchema,
  clears: nameSchema,
  expected: z.iso.date().nullable(),
})

export function HoldDialog({ view, onClose }: { readonly view: CarView; readonly onClose: () => void }) {
  const command = useCommand()
  const form = useZodForm(schema, {
    on: JSON.stringify({ kind: 'car' }),
    words: '',
    clears: '',
    expected: null,
  })
  return (
    <Dialog title="Set a hold" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Set the hold"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ on, ...rest }) => {
          const scope = holdScopeSchema.parse(JSON.parse(on))
          const payload = { holdId: newId<HoldId>(), scope, ...rest }
          const outcome = await command.send({ kind: 'setHold', carId: view.header.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <SelectField control={form.control} name="on" label="What is held" choices={scopeChoices(view)} />
        <NoteField control={form.control} name="words" label="Why, in your words" />
        <TextField
          control={form.control}
          name="clears"
          label="Who clears it"
          hint="the inspector, the owner, the bank"
        />
        <DateField control={form.control} name="expected" label="Expected on" hint="may stay empty" />
      </Form>
    </Dialog>
  )
}

function scopeChoices({ repairs, tasks }: CarView) {
  const choice = (scope: HoldScope, words: string, group: string) => ({
    value: JSON.stringify(scope),
    words,
    group,
  })
  return [
    choice({ kind: 'car' }, 'the whole car', 'Car'),
    ...repairs
      .filter((repair) => !repair.retired && !repair.finished)
      .flatMap(({ id, name, marks }) => [
        choice({ kind: 'repair', repairId: id }, `${name}, all gates`, name),
        ...marks
          .filter(({ mark }) => mark !== 'passed' && mark !== 'not needed')
          .map(({ gate }) => choice({ kind: 'gate', repairId: id, gate }, `${name}: ${gate}`, name)),
      ]),
    ...tasks
      .filter(({ status }) => status === 'open')
      .map(({ id, name }) => choice({ kind: 'task', taskId: id }, name, 'Tasks')),
  ]
}
