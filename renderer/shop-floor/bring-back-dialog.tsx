import { isSettled } from '../parts/form/settled.ts'
import { useQuery } from '@tanstack/react-query'
import { z } from 'zod'
import { fixtureSchema, optionalNoteSchema, reasonSchema } from '../../domain/facts/shapes.ts'
import { type Gate, gateSchema } from '../../domain/gates.ts'
import { bayIdSchema, type RepairId } from '../../domain/ids.ts'
import type { RepairCard } from '../../domain/views/shared-views.ts'
import type { ShopFloorView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { ChoiceField, ManyField, NoteField, SelectField } from '../parts/form/fields.tsx'
import { fixtureChoices } from '../parts/measure/fixtures.ts'
import type { FloorBayView } from './floor-plan.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { bayChoices } from './booking-fields.tsx'

/** What dipping or blasting may strip from inside cavities. */
const MAY_BE_STRIPPED: readonly Gate[] = ['sealed', 'primed', 'painted']

const schema = z.object({
  bayId: bayIdSchema,
  fixture: fixtureSchema,
  tookBack: z.array(z.string()),
  uncovered: optionalNoteSchema,
  reason: reasonSchema,
})

/** A shell comes back: where it stands, what was undone while it was away, and what that uncovered. */
export function BringBackDialog({
  car,
  bays,
  onClose,
}: {
  readonly car: ShopFloorView['away'][number]
  readonly bays: readonly FloorBayView[]
  readonly onClose: () => void
}) {
  const query = useQuery(api.car.queryOptions({ carId: car.carId }))
  const command = useCommand()
  const form = useZodForm(schema, {
    fixture: 'wheels',
    tookBack: [],
    uncovered: '',
    reason: `Back from ${car.firm}: ${car.what}`,
  })
  return (
    <Dialog title={`The ${car.name} is back`} isOpen onClose={onClose}>
      <Form
        form={form}
        submit="It is back"
        refusal={command.refusal}
        onCancel={onClose}
        onSubmit={async ({ tookBack, ...rest }) => {
          const payload = { awayId: car.awayId, ...rest, tookBack: tookBack.map(keyToGate) }
          const outcome = await command.send({ kind: 'bringBack', carId: car.carId, payload })
          if (isSettled(outcome)) onClose()
        }}
      >
        <SelectField
          control={form.control}
          name="bayId"
          label="Into bay"
          none="choose a bay"
          choices={bayChoices(bays)}
        />
        <ChoiceField control={form.control} name="fixture" label="How it stands" choices={fixtureChoices} />
        <Loaded query={query}>
          {({ repairs }) => (
            <ManyField
              control={form.control}
              name="tookBack"
              label="Gates that were undone there"
              hint="Dipping strips sealer and primer inside cavities. Later gates of the same repair are taken back with it."
              choices={repairs.flatMap(strippable)}
              none="No gate that could have been undone is passed."
            />
          )}
        </Loaded>
        <NoteField control={form.control} name="uncovered" label="What it uncovered (may stay empty)" />
        <NoteField control={form.control} name="reason" label="Reason for the record" />
      </Form>
    </Dialog>
  )
}

function strippable(repair: RepairCard) {
  return repair.marks
    .filter(({ gate, mark }) => mark === 'passed' && MAY_BE_STRIPPED.includes(gate))
    .map(({ gate }) => ({ value: `${gate} ${repair.id}`, words: `${repair.name}: ${gate}` }))
}

function keyToGate(key: string): { readonly gate: Gate; readonly repairId: RepairId } {
  const [gate, repairId] = key.split(' ')
  return { gate: gateSchema.parse(gate), repairId: repairId as RepairId }
}
