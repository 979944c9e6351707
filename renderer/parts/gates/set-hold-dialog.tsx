import { z } from 'zod'
import { type HoldScope, workFacts } from '../../../domain/facts/work-facts.ts'
import type { CarId, HoldId } from '../../../domain/ids.ts'
import { Dialog } from '../form/dialog.tsx'
import { ChoiceField, DateField, NoteField, SelectField, TextField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { newId } from '../form/new-id.ts'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'

const schema = workFacts.holdSet.omit({ holdId: true, scope: true }).extend({ on: z.string() })

/** More than these stand in a list. */
const MOST_IN_SIGHT = 4

/** A hold by hand: own words, who clears it and when that is expected. */
export function SetHoldDialog({
  carId,
  scopes,
  onClose,
}: {
  readonly carId: CarId
  /** What may be held, the likeliest first. */
  readonly scopes: readonly { readonly words: string; readonly scope: HoldScope; readonly group?: string }[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const What = scopes.length > MOST_IN_SIGHT ? SelectField : ChoiceField
  const form = useZodForm(schema, { words: '', clears: '', expected: null, on: scopes[0]?.words ?? '' })
  return (
    <Dialog title="Set a hold" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Hold it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ on, ...hold }) => {
          const scope = scopes.find(({ words }) => words === on)?.scope
          if (scope === undefined) return
          const payload = { holdId: newId<HoldId>(), scope, ...hold }
          if (isSettled(await command.send({ kind: 'setHold', carId, payload }))) onClose()
        }}
      >
        <What
          control={form.control}
          name="on"
          label="What is held"
          choices={scopes.map(({ words, group }) => ({
            value: words,
            words,
            ...(group !== undefined && { group }),
          }))}
        />
        <NoteField
          control={form.control}
          name="words"
          label="Why"
          hint="for instance: the inspector looks at the bare seam first"
        />
        <div className="field-row">
          <TextField control={form.control} name="clears" label="Who clears it" />
          <DateField
            control={form.control}
            name="expected"
            label="Expected on"
            hint="may stay empty; it plans like a late part"
          />
        </div>
      </Form>
    </Dialog>
  )
}
