import { useState } from 'react'
import { useFieldArray } from 'react-hook-form'
import { z } from 'zod'
import { workshopFacts } from '../../domain/facts/workshop-facts.ts'
import { plural } from '../../domain/text/words.ts'
import { Button, WordButton } from '../parts/button.tsx'
import { DateField, TextField } from '../parts/fields.tsx'
import { Form, useZodForm } from '../parts/form.tsx'
import { Notice } from '../parts/notice.tsx'
import { isSettled } from '../parts/settled.ts'
import { useCommand } from '../parts/use-command.ts'
import { useWhen } from '../parts/when.tsx'
import { WeekFields } from './week-fields.tsx'
import { WeekFigure } from './week-figure.tsx'
import styles from './week-sheet.module.css'
import { weekHoursOf } from './week-drawing.ts'
import { joinDays } from './holidays.ts'
import { weekProblem } from './week-problem.ts'
import type { Workshop } from './workshop-shapes.ts'

/** When the workshop works: its week drawn to scale, and the days on which it is closed. */
export function WeekSheet({ view }: { readonly view: Workshop }) {
  const [isSetting, setIsSetting] = useState(false)
  const holidays = useHolidays(view)
  if (isSetting) return <SetWeek view={view} onDone={() => setIsSetting(false)} />
  return (
    <div className={styles.page}>
      <section className="stack">
        <div className="spread">
          <h2>{weekHoursOf(view.week)} hours a week</h2>
          <Button kind="main" onClick={() => setIsSetting(true)}>
            Set the week and holidays
          </Button>
        </div>
        <WeekFigure week={view.week} />
        <p className="quiet">
          Work pauses outside these hours and goes on; curing does not pause. Who works otherwise has a week
          of their own, under People.
        </p>
      </section>
      <section className="stack-tight">
        <h2>Closed on</h2>
        {holidays.coming.length === 0 && <p className="quiet">No holiday is set from today on.</p>}
        <ul className="lines">
          {holidays.coming.map(({ from, words, name }) => (
            <li key={from} className="line">
              <span className="strong">{words}</span>
              <span>{name}</span>
            </li>
          ))}
        </ul>
        {holidays.past > 0 && <p className="small quiet">{plural('day', holidays.past)} before today.</p>}
      </section>
    </div>
  )
}

function useHolidays({ holidays }: Workshop) {
  const when = useWhen()
  const ahead = holidays
    .filter(({ date }) => date >= when.today)
    .toSorted((a, b) => a.date.localeCompare(b.date))
  const coming = joinDays(ahead).map((each) => ({
    ...each,
    words: each.from === each.to ? when.day(each.from) : when.range(each.from, each.to),
  }))
  return { coming, past: holidays.length - ahead.length }
}

const schema = z.object({ holidays: workshopFacts.calendarSet.shape.holidays })

function SetWeek({ view, onDone }: { readonly view: Workshop; readonly onDone: () => void }) {
  const when = useWhen()
  const command = useCommand()
  const [week, setWeek] = useState(view.week)
  const problem = weekProblem(week)
  const form = useZodForm(schema, {
    holidays: view.holidays.toSorted((a, b) => a.date.localeCompare(b.date)).map((each) => ({ ...each })),
  })
  const { fields, append, remove } = useFieldArray({ control: form.control, name: 'holidays' })
  return (
    <Form
      form={form}
      submit="Set it from now on"
      refusal={command.refusal}
      onCancel={onDone}
      onSubmit={async ({ holidays }) => {
        if (problem !== null) return
        const payload = { week: [...week], holidays: oneADay(holidays) }
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
              <DateField control={form.control} name={`holidays.${index}.date`} label="Day" />
              <TextField control={form.control} name={`holidays.${index}.name`} label="Called" />
              <WordButton aria-label={`Take out day ${index + 1}`} onClick={() => remove(index)}>
                out
              </WordButton>
            </div>
          ))}
          <div>
            <Button onClick={() => append({ date: when.today, name: 'closed' })}>Add a day</Button>
          </div>
        </section>
      </div>
    </Form>
  )
}

/** The last name given for a day counts. */
const oneADay = <Holiday extends { readonly date: string }>(holidays: readonly Holiday[]): Holiday[] => [
  ...new Map(holidays.map((each) => [each.date, each])).values(),
]
