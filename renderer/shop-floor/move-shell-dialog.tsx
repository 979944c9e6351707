import { isSettled } from '../parts/form/settled.ts'
import { placeFacts } from '../../domain/facts/place-facts.ts'
import type { CarLine } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField, SelectField } from '../parts/form/fields.tsx'
import type { FloorBayView } from './floor-plan.tsx'
import { fixtureChoices } from '../parts/measure/fixtures.ts'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { bayChoices } from './booking-fields.tsx'

/** Where the shell really stands from now on. */
export function MoveShellDialog({
  car,
  bays,
  onClose,
}: {
  readonly car: CarLine
  readonly bays: readonly FloorBayView[]
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(placeFacts.shellMoved, { fixture: car.fixture ?? 'wheels', note: '' })
  return (
    <Dialog title={`Move the ${car.name}`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="It stands there now"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (payload) => {
          const outcome = await command.send({ kind: 'moveShell', carId: car.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        {car.openRepairs > 0 && (
          <Notice kind="caution">
            <p className="strong">This shell is cut open.</p>
            <p>
              Move it only when it is braced or on a fixture. Its balance has changed: check the lift or
              rotisserie before it turns. Every lift of the support hold ends with the move.
            </p>
          </Notice>
        )}
        <SelectField
          control={form.control}
          name="bayId"
          label="To bay"
          none="choose a bay"
          choices={bayChoices(bays)}
        />
        <ChoiceField
          control={form.control}
          name="fixture"
          label="How it stands there"
          choices={fixtureChoices}
        />
        <NoteField control={form.control} name="note" label="Note (may stay empty)" />
      </Form>
    </Dialog>
  )
}
