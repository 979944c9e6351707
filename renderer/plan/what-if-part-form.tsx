import { useQuery } from '@tanstack/react-query'
import { useState } from 'react'
import { z } from 'zod'
import type { CarId, RepairId } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { api } from '../client.ts'
import { DateField, SelectField } from '../parts/form/fields.tsx'
import { SelectInput } from '../parts/form/inputs.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { useShownPlan } from './plan-context.ts'
import type { WhatIfFormProps } from './assumption.ts'

const schema = z.object({
  partId: z.string('Choose the part.'),
  expected: z.iso.date('Give the day it comes.'),
})

/** A part that is not here yet comes on another day: the car, its repair, the part. */
export function PartForm({ onAssume }: WhatIfFormProps) {
  const { view, names } = useShownPlan()
  const when = useWhen()
  const [carId, setCarId] = useState<CarId | null>(null)
  const [repairId, setRepairId] = useState<RepairId | null>(null)
  const { repairs, parts } = usePartsOf(carId, repairId)
  const form = useZodForm(schema, { expected: addDays(when.today, 14) })
  return (
    <Form
      form={form}
      submit="Try it"
      onSubmit={({ partId, expected }) => {
        const part = parts.find(({ id }) => id === partId)
        if (carId === null || part === undefined) return
        onAssume({ kind: 'part late', carId, partId, expected }, part.name)
      }}
    >
      <SelectInput
        label="Car"
        none="choose a car"
        choices={view.cars.map((car) => ({ value: car.carId, words: names.car(car.carId) }))}
        value={carId}
        onChange={(next) => {
          setCarId(next)
          setRepairId(null)
        }}
      />
      <SelectInput
        label="Repair"
        none="choose a repair"
        choices={repairs.map(({ id, name }) => ({ value: id, words: name }))}
        value={repairId}
        onChange={setRepairId}
      />
      <SelectField
        control={form.control}
        name="partId"
        label="Part"
        hint={repairId !== null && parts.length === 0 ? 'This repair waits for no part.' : undefined}
        none="choose a part"
        choices={parts.map(({ id, name, state }) => ({ value: id, words: `${name} (${state})` }))}
      />
      <DateField control={form.control} name="expected" label="Comes on" />
    </Form>
  )
}

function usePartsOf(carId: CarId | null, repairId: RepairId | null) {
  const car = useQuery(api.car.queryOptions({ carId: carId ?? ('' as CarId) }, { enabled: carId !== null }))
  const repair = useQuery(
    api.repair.queryOptions(
      { carId: carId ?? ('' as CarId), repairId: repairId ?? ('' as RepairId) },
      { enabled: carId !== null && repairId !== null },
    ),
  )
  const parts = repairId === null ? [] : (repair.data?.parts ?? [])
  return {
    repairs: carId === null ? [] : (car.data?.repairs ?? []),
    parts: parts.filter(({ state }) => state === 'needed' || state === 'ordered' || state === 'rejected'),
  }
}
