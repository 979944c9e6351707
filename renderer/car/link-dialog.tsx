import { isSettled } from '../parts/form/settled.ts'
import { z } from 'zod'
import { type RepairId, repairIdSchema } from '../../domain/ids.ts'
import type { RepairCard } from '../../domain/views/shared-views.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { SelectField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { repairChoices } from '../parts/car/repair-choices.ts'

export type LinkSide = 'covers' | 'covered by'

const schema = z.object({ other: repairIdSchema })

/** Says what covers what. A link that no order of work can satisfy is refused with the smallest clash and what frees it. */
export function LinkDialog({
  view,
  repair,
  side,
  onClose,
}: {
  readonly view: CarView
  readonly repair: RepairCard
  readonly side: LinkSide
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, {})
  const linked = view.covers.flatMap(({ over, under }): RepairId[] => {
    if (side === 'covers') return over === repair.id ? [under] : []
    return under === repair.id ? [over] : []
  })
  return (
    <Dialog
      title={side === 'covers' ? `What does ${repair.name} cover?` : `What covers ${repair.name}?`}
      isOpen
      onClose={onClose}
    >
      <Form
        form={form}
        submit="Link them"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ other }) => {
          const payload =
            side === 'covers' ? { over: repair.id, under: other } : { over: other, under: repair.id }
          const outcome = await command.send({ kind: 'linkCover', carId: view.header.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <p className="quiet">
          {side === 'covers'
            ? 'Its metal must come off to reach the other, and cannot go back until the other is finished.'
            : 'The other’s metal must come off to reach this one, and cannot go back until this one is finished.'}
        </p>
        <SelectField
          control={form.control}
          name="other"
          label="The other repair"
          none="choose a repair"
          choices={repairChoices(view.repairs.filter(({ id }) => id !== repair.id && !linked.includes(id)))}
        />
      </Form>
    </Dialog>
  )
}
