import { z } from 'zod'
import { nameSchema, workingSpanSchema } from '../../domain/facts/shapes.ts'
import { BAY_KINDS } from '../../domain/facts/workshop-facts.ts'
import { carIdSchema, personIdSchema } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { asChoices } from '../parts/form/as-choices.ts'
import { ChoiceField, DateField, ManyField, SelectField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { priorityChoices } from '../parts/car/visit-words.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { useShownPlan } from './plan-context.ts'
import type { WhatIfFormProps } from './assumption.ts'
import { EACH_WEEKDAY } from './what-if-words.ts'

const TRY = 'Try it'
const days = { from: z.iso.date('Give the first day.'), to: z.iso.date('Give the last day.') }
const inOrder = {
  error: 'The last day must not lie before the first.',
  path: ['to'],
}

const offSchema = z
  .object({ personId: personIdSchema, ...days })
  .refine(({ from, to }) => from <= to, inOrder)

export function OffForm({ onAssume }: WhatIfFormProps) {
  const { view } = useShownPlan()
  const when = useWhen()
  const form = useZodForm(offSchema, { from: when.today, to: addDays(when.today, 6) })
  return (
    <Form form={form} submit={TRY} onSubmit={(off) => onAssume({ kind: 'person off', ...off })}>
      <SelectField
        control={form.control}
        name="personId"
        label="Who"
        none="choose a person"
        choices={view.people.map(({ personId, name }) => ({ value: personId, words: name }))}
      />
      <div className="field-row">
        <DateField control={form.control} name="from" label="First day off" />
        <DateField control={form.control} name="to" label="Last day off" />
      </div>
    </Form>
  )
}

const newCarSchema = z.object({
  name: nameSchema,
  like: carIdSchema,
  arrives: z.iso.date('Give the day it comes.'),
  promised: z.iso.date().nullable(),
  priority: z.enum(['1', '2', '3']),
})

export function NewCarForm({ onAssume }: WhatIfFormProps) {
  const { view } = useShownPlan()
  const when = useWhen()
  const form = useZodForm(newCarSchema, {
    name: 'New car',
    arrives: addDays(when.today, 7),
    promised: null,
    priority: '1',
  })
  return (
    <Form
      form={form}
      submit={TRY}
      onSubmit={({ priority, ...car }) => onAssume({ kind: 'new car', ...car, priority: Number(priority) })}
    >
      <TextField control={form.control} name="name" label="What it is called" />
      <SelectField
        control={form.control}
        name="like"
        label="With the repairs of"
        hint="as they were when that car came in"
        none="choose a car"
        choices={view.cars.map(({ carId, name, shellNumber }) => ({
          value: carId,
          words: `${name}, shell ${shellNumber}`,
        }))}
      />
      <div className="field-row">
        <DateField control={form.control} name="arrives" label="Comes in on" />
        <DateField control={form.control} name="promised" label="Promised for" hint="may stay empty" />
      </div>
      <ChoiceField control={form.control} name="priority" label="Priority" choices={priorityChoices} />
    </Form>
  )
}

const overtimeSchema = z
  .object({
    people: z.array(personIdSchema).min(1, 'Name who works longer.'),
    ...days,
    weekdays: z.array(z.enum(['1', '2', '3', '4', '5', '6', '7'])).min(1, 'Choose a day of the week.'),
    span: workingSpanSchema,
  })
  .refine(({ from, to }) => from <= to, inOrder)

export function OvertimeForm({ onAssume }: WhatIfFormProps) {
  const { view } = useShownPlan()
  const when = useWhen()
  const form = useZodForm(overtimeSchema, {
    people: [],
    from: when.today,
    to: addDays(when.today, 27),
    weekdays: ['6'],
    span: { from: '08:00', to: '12:00' },
  })
  return (
    <Form
      form={form}
      submit={TRY}
      onSubmit={({ weekdays, ...overtime }) =>
        onAssume({ kind: 'overtime', ...overtime, weekdays: weekdays.map(Number) })
      }
    >
      <ManyField
        control={form.control}
        name="people"
        label="Who"
        choices={view.people.map(({ personId, name }) => ({ value: personId, words: name }))}
      />
      <ManyField
        control={form.control}
        name="weekdays"
        label="On which days"
        choices={EACH_WEEKDAY.map((words, index) => ({ value: String(index + 1), words }))}
      />
      <div className="field-row">
        <TextField control={form.control} name="span.from" label="From" hint="like 08:00" />
        <TextField control={form.control} name="span.to" label="To" hint="like 12:00" />
      </div>
      <div className="field-row">
        <DateField control={form.control} name="from" label="First day" />
        <DateField control={form.control} name="to" label="Last day" />
      </div>
    </Form>
  )
}

const baySchema = z.object({
  name: nameSchema,
  kinds: z.array(nameSchema).min(1, 'Say what can be done in it.'),
})

export function BayForm({ onAssume }: WhatIfFormProps) {
  const { view } = useShownPlan()
  const form = useZodForm(baySchema, { name: 'One more bay', kinds: [] })
  const kinds = [...new Set([...BAY_KINDS, ...view.bays.flatMap((bay) => bay.kinds)])]
  return (
    <Form form={form} submit={TRY} onSubmit={(bay) => onAssume({ kind: 'one more bay', ...bay })}>
      <TextField control={form.control} name="name" label="What it is called" />
      <ManyField
        control={form.control}
        name="kinds"
        label="What can be done in it"
        choices={asChoices(kinds)}
      />
    </Form>
  )
}
