import { z } from 'zod'
import { REWORK_CAUSES, reasonSchema, reworkCauseSchema } from '../../domain/facts/shapes.ts'
import { gatesFrom, type Gate } from '../../domain/gates.ts'
import { joinWords } from '../../domain/text/words.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, NoteField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'
import { GO_ON_TO_SIGN } from '../parts/sign/sign-request.ts'

const schema = z.object({ cause: reworkCauseSchema, reason: reasonSchema })

/** Takes a passed gate back, and with it every later one. */
export function ReopenDialog({ gate, onClose }: { readonly gate: Gate; readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const form = useZodForm(schema, { reason: '' })
  const takenBack = gatesFrom(view.plan, gate).filter((each) =>
    view.gates.some((known) => known.gate === each && known.number !== null),
  )
  const title = `Reopen ${gate}`
  return (
    <Dialog title={title} isOpen onClose={onClose}>
      <Form
        form={form}
        submit={GO_ON_TO_SIGN}
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ cause, reason }) => {
          const outcome = await command.send({
            kind: 'reopenGate',
            carId: view.car.carId,
            payload: { repairId: view.repair.id, gate, cause, reason },
            sign: {
              title,
              says: [
                `${view.repair.name}, ${view.car.name}`,
                `Taken back: ${joinWords(takenBack)}`,
                `${cause}: ${reason}`,
              ],
            },
          })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p>
          This takes back {joinWords(takenBack)}. Photos and readings from before no longer count for them,
          and hours on them are rework until each is passed again.
        </p>
        <ChoiceField control={form.control} name="cause" label="Cause" choices={asChoices(REWORK_CAUSES)} />
        <NoteField control={form.control} name="reason" label="What happened" />
      </Form>
    </Dialog>
  )
}
