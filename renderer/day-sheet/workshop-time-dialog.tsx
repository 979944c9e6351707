import { z } from 'zod'
import { nameSchema } from '../../domain/facts/shapes.ts'
import { Button } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import type { Clock } from '../parts/clock/use-clock.tsx'

const schema = z.object({ what: nameSchema })

/** Time that belongs to no car: one tap for the usual, or own words. */
export function WorkshopTimeDialog({
  clock,
  onClose,
}: {
  readonly clock: Clock
  readonly onClose: () => void
}) {
  const form = useZodForm(schema, { what: '' })
  const start = (what: string) => {
    clock.startOnWorkshop(what)
    onClose()
  }
  return (
    <Dialog title="Workshop time" isOpen onClose={onClose} size="narrow">
      <p className="quiet">It belongs to no car and is paid by nobody. What ran before is stopped.</p>
      <div className="stack-tight">
        {USUAL.map((what) => (
          <Button key={what} onClick={() => start(what)}>
            {what}
          </Button>
        ))}
      </div>
      <Form form={form} submit="Clock in on it" onSubmit={({ what }) => start(what)}>
        <TextField control={form.control} name="what" label="Something else" />
      </Form>
    </Dialog>
  )
}

const USUAL = ['sweeping and tidying', 'tools and machines', 'moving cars', 'talking a job through']
