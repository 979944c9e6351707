import { useState } from 'react'
import { joinWords, plural, weekdaysWords } from '../../domain/text/words.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { RefusalNote } from '../parts/form/notice.tsx'
import { useCommand } from '../parts/form/use-command.ts'
import { useWhen } from '../parts/frame/when.tsx'
import styles from './limits.module.css'
import { OvertimeDialog } from './overtime-dialog.tsx'
import type { Workshop, WorkshopOvertime } from './workshop-shapes.ts'

/** Who works longer and when, from today on. */
export function OvertimeList({ view }: { readonly view: Workshop }) {
  const when = useWhen()
  const command = useCommand()
  const [isAdding, setIsAdding] = useState(false)
  const coming = view.overtime
    .filter(({ to }) => to >= when.today)
    .toSorted((a, b) => a.from.localeCompare(b.from))
  const over = view.overtime.length - coming.length
  const nameOf = (id: string) => view.people.find((person) => person.id === id)?.name ?? 'somebody'
  const cancel = ({ id }: WorkshopOvertime) =>
    void command.send({ kind: 'cancelOvertime', carId: null, payload: { overtimeId: id } })
  return (
    <section className="stack-tight">
      <h2 className={styles.heading}>Overtime</h2>
      {coming.length === 0 && (
        <p className="quiet">Nobody works longer from today on. The plan counts on what is set here.</p>
      )}
      <ul className="lines">
        {coming.map((overtime) => {
          const { id, people, from, to, weekdays, span } = overtime
          const who = joinWords(people.map(nameOf))
          const hours = `${weekdaysWords(weekdays)} ${span.from} to ${span.to}`
          return (
            <li key={id} className="line">
              <span>
                <span className="strong">{who}</span>
                <br />
                {hours}, {when.range(from, to)}
              </span>
              <WordButton onClick={() => cancel(overtime)}>
                cancel
                <span className="hidden-word">
                  {' '}
                  overtime of {who}, {hours}
                </span>
              </WordButton>
            </li>
          )
        })}
      </ul>
      {over > 0 && <p className="small quiet">{plural('entry', over, 'entries')} before today.</p>}
      <RefusalNote refusal={command.refusal} />
      <div>
        <Button onClick={() => setIsAdding(true)}>Add overtime</Button>
      </div>
      {isAdding && <OvertimeDialog people={view.people} onClose={() => setIsAdding(false)} />}
    </section>
  )
}
