import { useState } from 'react'
import { useFieldArray } from 'react-hook-form'
import { z } from 'zod'
import { dateSchema, nameSchema } from '../../domain/facts/shapes.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { DateField, TextField } from '../parts/form/fields.tsx'
import { Form, useZodForm } from '../parts/form/form.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import { isTooLong, joinDays, partDays } from './holidays.ts'
import { WeekFields } from './week-fields.tsx'
import { WeekFigure } from './week-figure.tsx'
import { weekHoursOf } from './week-drawing.ts'
import { weekProblem } from './week-problem.ts'
import styles from './week-sheet.module.css'
import type { Workshop } from './workshop-shapes.ts'

const schema = z.object({
  closed: z.array(
    z
      .object({ from: dateSchema, to: dateSchema, name: nameSchema })
      .refine(({ from, to }) => from <= to, {
        path: ['to'],
        error: 'The last day must not come before the first.',
      })
      .refine((days) => !isTooLong(days), {
        path: ['to'],
        error: 'More than 60 days in one piece: enter it in parts.',
      }),
  ),
})

/** The week and the closed days while they are set; days that are over stay as they were. */
export function SetWeek({ view, onDone }: { readonly view: Workshop; readonly onDone: () => void }) {
  const when = useWhen()
  const command = useCommand()
  const [week, setWeek] = useState(view.week)
  const problem = weekProblem(week)
  const days = view.holidays.toSorted((a, b) => a.date.localeCompare(b.date))
  const over = days.filter(({ date }) => date < when.today)
  const form = useZodForm(schema, { closed: [...joinDays(days.filter(({ date }) => date >= when.today))] })
  const { fields, append, remove } = useFieldArray({ control: form.control, name: 'closed' })
  return (
    <Form
      form={form}
      submit="Set it from now on"
      refusal={command.refusal}
      onCancel={onDone}
      onSubmit={async ({ closed }) => {
        if (problem !== null) return
        const payload = { week: [...week], holidays: [...over, ...partDays(closed)] }
        if (isSettled(await command.send({ kind: 'setCalendar', carId: null, payload }))) onDone()
      }}
    >
      <div className={styles.page}>
        <section className="stack-tight">
          <h2>{weekHoursOf(week)} hours a week</h2>
          <WeekFigure week={week} />
          <WeekFields week={week} onChange={setWeek} />
          {problem !== null && <Notice kind="held">{problem}</Notice>}
        </section>
        <section className="stack-tight">
          <h2>Closed on</h2>
          {fields.map((each, index) => (
            <div key={each.id} className={styles.holiday}>
              <TextField control={form.control} name={`closed.${index}.name`} label="Called" />
              <DateField control={form.control} name={`closed.${index}.from`} label="First day" />
              <DateField control={form.control} name={`closed.${index}.to`} label="Last day" />
              <WordButton aria-label={`Remove closed days ${index + 1}`} onClick={() => remove(index)}>
                remove
              </WordButton>
            </div>
          ))}
          <div>
            <Button onClick={() => append({ from: when.today, to: when.today, name: '' })}>
              Add closed days
            </Button>
          </div>
        </section>
      </div>
    </Form>
  )
}
