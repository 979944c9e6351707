import { workFacts } from '../../domain/facts/work-facts.ts'
import type { JointId, ReadingId } from '../../domain/ids.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { NumberField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { newId } from '../parts/form/new-id.ts'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'

const schema = workFacts.weldsCounted.pick({ welds: true })

/** Spots and plugs by count, seams by length, joint for joint as the weld plan asks. */
export function WeldsDialog({ onClose }: { readonly onClose: () => void }) {
  const { view } = useRepair()
  const command = useCommand()
  const form = useZodForm(schema, {
    welds: view.welds.map(({ jointId, done }) => ({
      jointId: jointId as JointId,
      done: done === 0 ? (null as unknown as number) : done,
    })),
  })
  return (
    <Dialog title="Count the welds" isOpen onClose={onClose}>
      <Form
        form={form}
        submit="Record the count"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ welds }) => {
          const payload = { readingId: newId<ReadingId>(), repairId: view.repair.id, welds }
          if (isSettled(await command.send({ kind: 'countWelds', carId: view.car.carId, payload }))) onClose()
        }}
      >
        {view.welds.length === 0 && <p>The weld plan is empty; the manager can fill it.</p>}
        {view.welds.map(({ jointId, name, kind, planned }, index) => (
          <NumberField
            key={jointId}
            control={form.control}
            name={`welds.${index}.done`}
            label={name}
            unit={kind === 'seam' ? 'mm' : kind === 'spot' ? 'spots' : 'plugs'}
            hint={`planned: ${planned} ${kind === 'seam' ? 'mm of seam' : `${kind}s`}`}
          />
        ))}
      </Form>
    </Dialog>
  )
}
