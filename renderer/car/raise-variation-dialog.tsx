import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import { nameSchema, noteSchema, optionalNoteSchema, PAYERS, payerSchema } from '../../domain/facts/shapes.ts'
import { GATES } from '../../domain/gates.ts'
import { attachmentIdSchema, findingIdSchema, type RepairId, type VariationId } from '../../domain/ids.ts'
import type { CarView, RepairView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/dialog.tsx'
import { ChoiceField, ManyField, NoteField, NumberField, SelectInput, TextField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { Loaded } from '../parts/loaded.tsx'
import { newId } from '../parts/new-id.ts'
import { isSettled } from '../parts/settled.ts'
import { useCommand } from '../parts/use-command.ts'
import { useWhen } from '../parts/when.tsx'
import { repairChoices } from './repair-choices.ts'

const hoursMore = z.number().min(-10_000).max(10_000).nullable()
const schema = z
  .object({
    payer: payerSchema,
    title: nameSchema,
    why: noteSchema,
    ifNot: optionalNoteSchema,
    findings: z.array(findingIdSchema),
    attachments: z.array(attachmentIdSchema),
    hours: z.record(z.enum(GATES), hoursMore),
  })
  .refine(({ hours }) => Object.values(hours).some((each) => each !== null && each !== 0), {
    error: 'Give hours more or less on one gate at least.',
    path: ['hours'],
  })

/** Extra or less work on one repair, with what was found and its photos, put to its payer. */
export function RaiseVariationDialog({
  view,
  onClose,
}: {
  readonly view: CarView
  readonly onClose: () => void
}) {
  const [repairId, setRepairId] = useState<RepairId | null>(null)
  return (
    <Dialog title="Raise a variation" isOpen onClose={onClose} size="wide">
      <SelectInput
        label="On which repair"
        none="choose a repair"
        choices={repairChoices(view.repairs)}
        value={repairId}
        onChange={setRepairId}
      />
      {repairId !== null && <OfRepair key={repairId} view={view} repairId={repairId} onClose={onClose} />}
    </Dialog>
  )
}

function OfRepair({
  view,
  repairId,
  onClose,
}: {
  readonly view: CarView
  readonly repairId: RepairId
  readonly onClose: () => void
}) {
  const query = useQuery(api.repair.queryOptions({ carId: view.header.carId, repairId }))
  return <Loaded query={query}>{(repair) => <RaiseForm repair={repair} onClose={onClose} />}</Loaded>
}

function RaiseForm({ repair: view, onClose }: { readonly repair: RepairView; readonly onClose: () => void }) {
  const when = useWhen()
  const command = useCommand()
  const { repair, car, visitId } = view
  const form = useZodForm(schema, {
    payer: repair.payer,
    title: '',
    why: '',
    ifNot: '',
    findings: [],
    attachments: [],
    hours: Object.fromEntries(GATES.map((gate) => [gate, null])) as Record<(typeof GATES)[number], null>,
  })
  const hoursError = form.formState.errors.hours?.message ?? form.formState.errors.hours?.root?.message
  return (
    <Form
      form={form}
      submit="Raise it"
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ hours, ...rest }) => {
        const lines = GATES.flatMap((gate) => {
          const more = hours[gate]
          return more === null || more === 0
            ? []
            : [
                {
                  target: { kind: 'gate' as const, repairId: repair.id, gate },
                  hours: more,
                  low: more,
                  high: more,
                },
              ]
        })
        const payload = { variationId: newId<VariationId>(), visitId, ...rest, lines, costs: [] }
        if (isSettled(await command.send({ kind: 'raiseVariation', carId: car.carId, payload }))) onClose()
      }}
    >
      <TextField control={form.control} name="title" label="What it is about" isFirst />
      <ChoiceField
        control={form.control}
        name="payer"
        label="Who decides"
        choices={PAYERS.map((value) => ({ value, words: value }))}
      />
      <ManyField
        control={form.control}
        name="findings"
        label="Because of these findings"
        choices={view.findings.map(({ id, layer, kind, grade }) => ({
          value: id,
          words: `${layer ?? 'repair'}: ${kind}, ${grade}`,
        }))}
        none="No finding on this repair; findings are added on the repair’s own screen."
      />
      <NoteField control={form.control} name="why" label="Why" hint="The owner reads this." />
      <NoteField control={form.control} name="ifNot" label="What happens if not (may stay empty)" />
      <fieldset className="field">
        <legend>Hours more, or less with a minus</legend>
        <div className="field-row">
          {GATES.map((gate) => (
            <NumberField key={gate} control={form.control} name={`hours.${gate}`} label={gate} unit="h" />
          ))}
        </div>
        {hoursError !== undefined && <div className="error">{hoursError}</div>}
      </fieldset>
      <ManyField
        control={form.control}
        name="attachments"
        label="Photos for the owner"
        choices={view.photos.map((photo) => ({
          value: photo.attachmentId,
          words: `${photo.caption || photo.serves[0]?.gate || 'photo'}, ${when.day(photo.taken)}`,
        }))}
        none="No photos of this repair yet."
      />
    </Form>
  )
}
