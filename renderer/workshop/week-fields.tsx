import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { WordButton } from '../parts/form/button.tsx'
import { LONG_WEEKDAYS } from '../../domain/text/words.ts'
import type { Span } from './week-drawing.ts'
import styles from './week.module.css'
import { dayProblem } from './week-problem.ts'

/** The hours of each day, set day by day; one day can be taken over from the day before. */
export function WeekFields({
  week,
  onChange,
}: {
  readonly week: WorkingWeek
  readonly onChange: (week: WorkingWeek) => void
}) {
  const setDay = (day: number, spans: readonly Span[]) =>
    onChange(week.map((each, index) => (index === day ? [...spans] : each)))
  return (
    <div className={styles.days}>
      {week.map((spans, day) => (
        <DayRow
          key={LONG_WEEKDAYS[day]}
          name={LONG_WEEKDAYS[day] ?? ''}
          spans={spans}
          before={day === 0 ? null : (week[day - 1] ?? null)}
          onChange={(changed) => setDay(day, changed)}
        />
      ))}
    </div>
  )
}

function DayRow({
  name,
  spans,
  before,
  onChange,
}: {
  readonly name: string
  readonly spans: readonly Span[]
  readonly before: readonly Span[] | null
  readonly onChange: (spans: readonly Span[]) => void
}) {
  const problem = dayProblem(spans)
  const last = spans.at(-1)
  const isLikeBefore = JSON.stringify(before) === JSON.stringify(spans)
  return (
    <div className={styles.dayRow} role="group" aria-label={name}>
      <span className={`${styles.dayName} strong`}>{name}</span>
      <div className="stack-tight">
        <div className={styles.spans}>
          {spans.length === 0 && <span className="quiet">off</span>}
          {spans.map((span, index) => (
            <SpanRow
              key={index}
              label={`${name}, ${index + 1}`}
              span={span}
              onChange={(changed) => onChange(spans.map((each, n) => (n === index ? changed : each)))}
              onRemove={() => onChange(spans.filter((_, n) => n !== index))}
            />
          ))}
          {spans.length < MOST_SPANS && (
            <WordButton onClick={() => onChange([...spans, nextSpan(last)])}>
              {spans.length === 0 ? 'work on it' : 'add hours'}
              <span className="hidden-word"> on {name}</span>
            </WordButton>
          )}
          {before !== null && !isLikeBefore && (
            <WordButton onClick={() => onChange(before)}>
              like the day before<span className="hidden-word">, on {name}</span>
            </WordButton>
          )}
        </div>
        {problem !== null && (
          <p className="small is-accent" role="alert">
            {problem}
          </p>
        )}
      </div>
    </div>
  )
}

function SpanRow({
  label,
  span,
  onChange,
  onRemove,
}: {
  readonly label: string
  readonly span: Span
  readonly onChange: (span: Span) => void
  readonly onRemove: () => void
}) {
  return (
    <span className={styles.spanRow}>
      <input
        className="input"
        type="time"
        aria-label={`${label}, from`}
        value={span.from}
        onChange={(event) => onChange({ ...span, from: event.target.value })}
      />
      to
      <input
        className="input"
        type="time"
        aria-label={`${label}, to`}
        value={span.to}
        onChange={(event) => onChange({ ...span, to: event.target.value })}
      />
      <WordButton aria-label={`Remove ${label}`} onClick={onRemove}>
        remove
      </WordButton>
    </span>
  )
}

const MOST_SPANS = 4

/** After a break of half an hour; a morning where there is nothing yet. */
function nextSpan(last: Span | undefined): Span {
  if (last === undefined) return { from: '08:00', to: '12:30' }
  const [hours = 0, minutes = 0] = last.to.split(':').map(Number)
  const start = Math.min(23 * 60, hours * 60 + minutes + 30)
  return { from: clock(start), to: clock(Math.min(23 * 60 + 30, start + 210)) }
}

const clock = (minutes: number): string =>
  `${String(Math.floor(minutes / 60)).padStart(2, '0')}:${String(minutes % 60).padStart(2, '0')}`
