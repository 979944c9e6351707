import { isSettled } from '../parts/form/settled.ts'
import { useQuery } from '@tanstack/react-query'
import { useFieldArray } from 'react-hook-form'
import { z } from 'zod'
import { edgePlanSchema, nameSchema } from '../../domain/facts/shapes.ts'
import { type EdgeId, type FitGroupId, repairIdSchema } from '../../domain/ids.ts'
import type { FitGroupView } from '../../domain/views/shared-views.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import type { WorkshopSettings } from '../../domain/facts/workshop-facts.ts'
import { api } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { Dialog } from '../parts/form/dialog.tsx'
import { ManyField, NumberField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { repairChoices } from '../parts/car/repair-choices.ts'
import { edgePlans } from './fit-group-payload.ts'

const schema = z.object({
  name: nameSchema,
  members: z.array(repairIdSchema).min(1, 'Choose the repairs around the opening.'),
  hungParts: z.string(),
  edges: z.array(edgePlanSchema).max(24),
})

/** One opening: its repairs, the parts that hang in it, and the edges that are read with their gap and tolerance. */
export function FitGroupDialog({
  view,
  group,
  onClose,
}: {
  readonly view: CarView
  readonly group: FitGroupView | null
  readonly onClose: () => void
}) {
  const workshop = useQuery(api.workshop.queryOptions())
  return (
    <Dialog
      title={group === null ? 'Add a fit group' : `Change ${group.name}`}
      isOpen
      onClose={onClose}
      size="wide"
    >
      <Loaded query={workshop}>
        {({ settings }) => <FitGroupForm view={view} group={group} settings={settings} onClose={onClose} />}
      </Loaded>
    </Dialog>
  )
}

function FitGroupForm({
  view,
  group,
  settings,
  onClose,
}: {
  readonly view: CarView
  readonly group: FitGroupView | null
  readonly settings: WorkshopSettings
  readonly onClose: () => void
}) {
  const command = useCommand()
  const form = useZodForm(schema, {
    name: group?.name ?? '',
    members: group?.members.map(({ id }) => id) ?? [],
    hungParts: group?.hungParts.join(', ') ?? '',
    edges: group === null ? [] : edgePlans(group),
  })
  const edges = useFieldArray({ control: form.control, name: 'edges', keyName: 'key' })
  return (
    <Form
      form={form}
      submit={group === null ? 'Add it' : 'Change it'}
      refusal={command.refusal}
      onCancel={onClose}
      onSubmit={async ({ hungParts, ...rest }) => {
        const { carId, revision } = view.header
        const outcome = await command.send({
          kind: 'setFitGroup',
          carId,
          ...(group !== null && { seen: revision }),
          payload: { groupId: group?.id ?? newId<FitGroupId>(), ...rest, hungParts: splitNames(hungParts) },
        })
        if (isSettled(outcome)) onClose()
      }}
    >
      <TextField
        control={form.control}
        name="name"
        label="The opening"
        hint="boot opening, door opening left"
        isFirst
      />
      <ManyField
        control={form.control}
        name="members"
        label="Repairs around it"
        choices={repairChoices(view.repairs)}
      />
      <TextField
        control={form.control}
        name="hungParts"
        label="Parts that hang in it"
        hint="boot lid; several with commas"
      />
      <fieldset className="stack-tight">
        <legend className="label">Edges to be read</legend>
        {edges.fields.map((edge, index) => (
          <div key={edge.key} className="field-row">
            <TextField control={form.control} name={`edges.${index}.name`} label="Edge" />
            <NumberField control={form.control} name={`edges.${index}.nominalMm`} label="Gap" unit="mm" />
            <NumberField
              control={form.control}
              name={`edges.${index}.toleranceMm`}
              label="Tolerance ±"
              unit="mm"
            />
            <NumberField
              control={form.control}
              name={`edges.${index}.flushToleranceMm`}
              label="Flush ±"
              unit="mm"
            />
            <WordButton onClick={() => edges.remove(index)}>leave this edge out</WordButton>
          </div>
        ))}
        <div>
          <Button
            onClick={() =>
              edges.append({
                edgeId: newId<EdgeId>(),
                name: '',
                nominalMm: settings.gapNominalMm,
                toleranceMm: settings.gapToleranceMm,
                flushToleranceMm: settings.flushToleranceMm,
              })
            }
          >
            Add an edge
          </Button>
        </div>
      </fieldset>
    </Form>
  )
}

const splitNames = (text: string): string[] =>
  text
    .split(',')
    .map((name) => name.trim())
    .filter((name) => name !== '')
