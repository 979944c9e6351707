import { FEW_FIXTURES, fixtureCountsSchema, type FixtureCounts } from '../../domain/facts/plan-facts.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { FIXTURE_NAMES } from './fixture-names.ts'

/** How many jigs, rotisseries and dollies there are; a car that is planned on one waits until one is free. */
export function FixturesDialog({
  fixtures,
  onClose,
}: {
  readonly fixtures: FixtureCounts
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(fixtureCountsSchema, { ...fixtures })
  return (
    <Dialog title="Fixtures in the workshop" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Plan by these"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async (counts) => {
          const outcome = await command.send({ kind: 'setFixtures', carId: null, payload: { counts } })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p className="quiet">Left empty, the plan takes it that there are always enough.</p>
        <div className="field-row">
          {FEW_FIXTURES.map((fixture) => (
            <NumberField
              key={fixture}
              control={form.control}
              name={fixture}
              label={FIXTURE_NAMES[fixture]}
              unit=""
            />
          ))}
        </div>
      </Form>
    </Dialog>
  )
}
