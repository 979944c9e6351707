import { carPlanFacts } from '../../../domain/facts/plan-facts.ts'
import type { WorkTarget } from '../../../domain/facts/shapes.ts'
import type { CarId } from '../../../domain/ids.ts'
import { hours } from '../../../domain/text/words.ts'
import type { HoursPair, LeftView } from '../../../domain/views/shared-views.ts'
import { Dialog } from '../form/dialog.tsx'
import { NumberField } from '../form/fields.tsx'
import { Form, useZodForm } from '../form/form.tsx'
import { LeftWords } from './left-words.tsx'
import { isSettled } from '../form/settled.ts'
import { useCommand } from '../form/use-command.ts'

const schema = carPlanFacts.leftSaid.pick({ hours: true })

/** What is still to do on work that was begun: the plan goes by it instead of by the estimate less what was spent. */
export function SayLeftDialog({
  carId,
  target,
  name,
  spent,
  left,
  onClose,
}: {
  readonly carId: CarId
  readonly target: WorkTarget
  readonly name: string
  readonly spent: HoursPair['spent']
  readonly left: LeftView | null
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, { hours: left?.hours ?? (null as unknown as number) })
  return (
    <Dialog title={`${name}: still to do`} isOpen onClose={onClose} size="narrow">
      <Form
        form={form}
        submit="Say it"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (said) => {
          if (isSettled(await command.send({ kind: 'sayLeft', carId, payload: { target, ...said } })))
            onClose()
        }}
      >
        <p className="quiet">
          {hours(spent)} spent so far.{' '}
          {left !== null && (
            <>
              Last time: <LeftWords left={left} />.
            </>
          )}
        </p>
        <NumberField
          control={form.control}
          name="hours"
          label="Hours still to do"
          unit="h"
          hint="Of all who work on it together; 0 when only the signature is left."
        />
      </Form>
    </Dialog>
  )
}
