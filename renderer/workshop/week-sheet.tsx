import { useState } from 'react'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { SetWeek } from './set-week.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { WeekFigure } from './week-figure.tsx'
import styles from './week-sheet.module.css'
import { weekHoursOf } from './week-drawing.ts'
import { joinDays } from './holidays.ts'
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
