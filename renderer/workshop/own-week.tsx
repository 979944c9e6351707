import type { WorkingWeek } from '../../domain/facts/shapes.ts'
import { ChoiceRow } from '../parts/form/inputs.tsx'
import { weekHoursOf, weekWordsOf } from './week-drawing.ts'
import { WeekFields } from './week-fields.tsx'

/** The workshop's week, or one of the person's own that starts as a copy of it. */
export function OwnWeek({
  week,
  workshopWeek,
  onChange,
}: {
  /** Null for the workshop's. */
  readonly week: WorkingWeek | null
  readonly workshopWeek: WorkingWeek
  readonly onChange: (week: WorkingWeek | null) => void
}) {
  return (
    <div className="stack-tight">
      <ChoiceRow
        label="Working week"
        hint={`${weekWordsOf(week ?? workshopWeek)} (${weekHoursOf(week ?? workshopWeek)} h)`}
        choices={[
          { value: 'workshop', words: 'as the workshop' },
          { value: 'own', words: 'own week' },
        ]}
        value={week === null ? 'workshop' : 'own'}
        onChange={(value) => onChange(value === 'own' ? workshopWeek : null)}
      />
      {week !== null && <WeekFields week={week} onChange={onChange} />}
    </div>
  )
}
