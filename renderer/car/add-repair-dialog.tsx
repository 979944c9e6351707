import { skipToken, useQuery } from '@tanstack/react-query'
import { useEffect, useState } from 'react'
import { z } from 'zod'
import {
  nameSchema,
  payerSchema,
  PAYERS,
  PLACES,
  type RepairPlan,
  SIDES,
  zoneSchema,
} from '../../domain/facts/shapes.ts'
import { planFromType } from '../../domain/catalogue/type-plan.ts'
import {
  fitGroupIdSchema,
  type RepairId,
  repairIdSchema,
  type TypeId,
  typeIdSchema,
} from '../../domain/ids.ts'
import { capital, fixed, plural } from '../../domain/text/words.ts'
import type { CarView } from '../../domain/views/view-shapes.ts'
import { api } from '../client.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { Dialog } from '../parts/form/dialog.tsx'
import { CheckField, ChoiceField, ManyField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Loaded } from '../parts/frame/loaded.tsx'
import { newId } from '../parts/form/new-id.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { fitGroupPayload } from './fit-group-payload.ts'
import { repairChoices } from '../parts/car/repair-choices.ts'
import { isSettled, isThere } from '../parts/form/settled.ts'

const schema = z.object({
  typeId: typeIdSchema,
  name: nameSchema,
  zone: zoneSchema,
  payer: payerSchema,
  covers: z.array(repairIdSchema),
  coveredBy: z.array(repairIdSchema),
  groups: z.array(fitGroupIdSchema),
  /** The hours of finished repairs of the type in place of the type's own. */
  takesLearned: z.boolean(),
})

type Types = readonly {
  readonly id: TypeId
  readonly version: number
  readonly plan: RepairPlan
  readonly retired: boolean
}[]

/** A repair from a repair type, with what covers what; its plan is its own from now on. */
export function AddRepairDialog({ view, onClose }: { readonly view: CarView; readonly onClose: () => void }) {
  const catalogue = useQuery(api.catalogue.queryOptions())
  return (
    <Dialog title="Add a repair" isOpen onClose={onClose} size="wide">
      <Loaded query={catalogue}>
        {({ types }) => (
          <AddRepairForm view={view} types={types.filter((type) => !type.retired)} onClose={onClose} />
        )}
      </Loaded>
    </Dialog>
  )
}

function AddRepairForm({
  view,
  types,
  onClose,
}: {
  readonly view: CarView
  readonly types: Types
  readonly onClose: () => void
}) {
  const { carId } = view.header
  const command = useCommand()
  const [repairId] = useState(() => newId<RepairId>())
  const form = useZodForm(schema, {
    name: '',
    payer: 'owner',
    covers: [],
    coveredBy: [],
    groups: [],
    takesLearned: false,
  })
  const type = types.find(({ id }) => id === form.watch('typeId'))
  const learned = useQuery(
    api.hoursProposal.queryOptions(type === undefined ? skipToken : { typeId: type.id }),
  )
  const proposal = learned.data ?? null
  const plan = type && (form.watch('takesLearned') && proposal !== null ? proposal.plan : type.plan)
  const others = repairChoices(view.repairs)
  const side = form.watch('zone.side')

  // The name follows the side as long as nobody has written another one.
  useEffect(() => {
    if (type === undefined || side === undefined) return
    const usual = SIDES.map((each) => nameWithSide(type.plan, each))
    if (usual.includes(form.getValues('name'))) form.setValue('name', nameWithSide(type.plan, side))
  }, [form, side, type])

  const choose = (id: string) => {
    const plan = types.find((each) => each.id === id)?.plan
    if (plan === undefined) return
    form.setValue('zone', plan.zone)
    form.setValue('takesLearned', false)
    form.setValue('name', nameWithSide(plan, plan.zone.side), { shouldValidate: form.formState.isSubmitted })
  }
  const submit = async (values: z.output<typeof schema>) => {
    if (type === undefined || plan === undefined) return
    const own = planFromType(plan, { repairId, name: values.name, zone: values.zone })
    const outcome = await command.send({
      kind: 'addRepair',
      carId,
      payload: {
        repairId,
        type: { typeId: values.typeId, version: type.version },
        plan: own,
        payer: values.payer,
        covers: values.covers,
        coveredBy: values.coveredBy,
      },
    })
    if (!isThere(outcome)) return
    if (values.takesLearned && proposal !== null) {
      const said = await command.send({ kind: 'takeHours', carId, payload: { repairId, ...proposal.taken } })
      if (!isThere(said)) return
    }
    for (const group of view.fitGroups.filter(({ id }) => values.groups.includes(id))) {
      const payload = fitGroupPayload(group, [...group.members.map(({ id }) => id), repairId])
      const joined = await command.send({ kind: 'setFitGroup', carId, payload })
      if (!isSettled(joined)) return
    }
    onClose()
  }

  return (
    <Form form={form} submit="Add the repair" refusal={command.refusal} onCancel={onClose} onSubmit={submit}>
      <SelectField
        control={form.control}
        name="typeId"
        label="Repair type"
        none="choose a type"
        choices={types.map(({ id, plan }) => ({
          value: id,
          words: plan.name,
          group: capital(`${plan.zone.place} of the shell`),
        }))}
        onChosen={choose}
      />
      {plan !== undefined && !learned.isPending && (
        <>
          <p className="small quiet">{typeWords(plan)}</p>
          {proposal !== null && (
            <CheckField
              control={form.control}
              name="takesLearned"
              label={proposal.title}
              hint={proposal.words}
            />
          )}
          <TextField control={form.control} name="name" label="Name on this car" />
          <div className="field-row">
            <ChoiceField control={form.control} name="zone.side" label="Side" choices={asChoices(SIDES)} />
            <ChoiceField control={form.control} name="zone.place" label="Place" choices={asChoices(PLACES)} />
            <ChoiceField control={form.control} name="payer" label="Who pays" choices={asChoices(PAYERS)} />
          </div>
          <ManyField
            control={form.control}
            name="coveredBy"
            label="Covered by"
            hint="Their metal must come off first and cannot go back until this one is finished."
            choices={others}
            none="This is the first repair of the car."
          />
          <ManyField
            control={form.control}
            name="covers"
            label="Covers"
            choices={others}
            none="This is the first repair of the car."
          />
          <ManyField
            control={form.control}
            name="groups"
            label="Fits together with"
            choices={view.fitGroups.map(({ id, name }) => ({ value: id, words: name }))}
            none="No fit group yet; make one on the map, around an opening."
          />
        </>
      )}
    </Form>
  )
}

const nameWithSide = ({ name }: RepairPlan, side: string): string =>
  side === 'centre' ? name : `${name}, ${side}`

/** 'load-bearing; covered; 2 layers: inner panel, outer panel; 12.5 to 24.0 h' */
function typeWords({ loadBearing, layers, gates, outer }: RepairPlan): string {
  const plans = Object.values(gates)
  const sum = (point: 'shortest' | 'longest') => plans.reduce((total, gate) => total + gate.hours[point], 0)
  return [
    ...(loadBearing ? ['load-bearing'] : []),
    outer ? 'outer panel' : 'covered',
    `${plural('layer', layers.length)}: ${layers.map((layer) => layer.name).join(', ')}`,
    `${fixed(sum('shortest'), 1)} to ${fixed(sum('longest'), 1)} h`,
  ].join('; ')
}
