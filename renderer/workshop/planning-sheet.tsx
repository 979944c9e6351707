import { useState } from 'react'
import { FEW_FIXTURES } from '../../domain/facts/plan-facts.ts'
import { plural } from '../../domain/text/words.ts'
import { Button } from '../parts/form/button.tsx'
import { FIXTURE_NAMES } from './fixture-names.ts'
import { FixturesDialog } from './fixtures-dialog.tsx'
import { KeptDaysFigure } from './kept-days-figure.tsx'
import styles from './limits.module.css'
import { OvertimeList } from './overtime-list.tsx'
import { PlanningForm } from './planning-form.tsx'
import type { Workshop } from './workshop-shapes.ts'

/** What the plan goes by, beside the week, the people and the bays. */
export function PlanningSheet({ view }: { readonly view: Workshop }) {
  const [doing, setDoing] = useState<'planning' | 'fixtures' | null>(null)
  const close = () => setDoing(null)
  const { planning, fixtures } = view
  if (doing === 'planning') return <PlanningForm planning={planning} onDone={close} />
  return (
    <div className="stack">
      <div className={styles.cells}>
        <section className="stack-tight">
          <h2 className={styles.heading}>Days that keep the plan</h2>
          <KeptDaysFigure days={planning.frozenDays} />
          <p>{keptWords(planning.frozenDays)}</p>
          <p>
            {planning.takeByItself
              ? 'Changes to later days are taken by themselves.'
              : 'Every change is a proposal until a manager takes it.'}
          </p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>Moving a shell</h2>
          <p className="figure">{planning.moveMinutes} min</p>
          <p>
            {planning.movePeople === 0
              ? 'for each move to another bay; it takes nobody off their work.'
              : `of ${plural('person', planning.movePeople, 'people')}, for each move to another bay.`}
          </p>
          <p className="small quiet">
            An open load-bearing repair stays where it is unless the shell is braced or on a fixture.
          </p>
        </section>
        <section className="stack-tight">
          <h2 className={styles.heading}>An owner’s answer</h2>
          <p className="figure">{plural('day', planning.decisionDays)}</p>
          <p>after it was asked for, where no day is named.</p>
          <p className="small quiet">A day may be named on each variation, under Owner decisions.</p>
        </section>
      </div>
      <div>
        <Button kind="main" onClick={() => setDoing('planning')}>
          Change what the plan goes by
        </Button>
      </div>
      <div className={styles.cellsBelow}>
        <section className="stack-tight">
          <h2 className={styles.heading}>Fixtures in the workshop</h2>
          <dl className={styles.figures}>
            {FEW_FIXTURES.map((fixture) => (
              <div key={fixture} className="line">
                <dt className="quiet">{FIXTURE_NAMES[fixture]}</dt>
                <dd className="strong">{fixtures[fixture] ?? 'not limited'}</dd>
              </div>
            ))}
          </dl>
          <div>
            <Button onClick={() => setDoing('fixtures')}>Count the fixtures</Button>
          </div>
        </section>
        <OvertimeList view={view} />
      </div>
      {doing === 'fixtures' && <FixturesDialog fixtures={fixtures} onClose={close} />}
    </div>
  )
}

function keptWords(days: number): string {
  if (days === 0) return 'No day keeps the plan: all work may be planned anew.'
  return `Today and the next ${days === 1 ? 'working day' : `${days} working days`} keep the plan that people were given.`
}
