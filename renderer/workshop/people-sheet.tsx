import { useState } from 'react'
import { joinWords } from '../../domain/text/words.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import { AbsenceStrip } from './absence-strip.tsx'
import { CodeDialog } from './code-dialog.tsx'
import styles from './people.module.css'
import { PersonDialog } from './person-dialog.tsx'
import { knownSkills } from './known-words.ts'
import { WeekStrip } from './week-strip.tsx'
import { weekHoursOf } from './week-drawing.ts'
import type { Workshop, WorkshopPerson } from './workshop-shapes.ts'

type Doing =
  | { readonly is: 'person'; readonly person: WorkshopPerson | null }
  | { readonly is: 'code'; readonly person: WorkshopPerson }

/** Who works here: what they do, what they can, and when they are in. */
export function PeopleSheet({ view }: { readonly view: Workshop }) {
  const [doing, setDoing] = useState<Doing | null>(null)
  const here = view.people.filter((person) => person.active)
  const gone = view.people.filter((person) => !person.active)
  const close = () => setDoing(null)
  return (
    <div className="stack">
      <div>
        <Button kind="main" onClick={() => setDoing({ is: 'person', person: null })}>
          Add a person
        </Button>
      </div>
      {here.length === 1 && (
        <p className="quiet">
          Add everyone who clocks time or signs gates, each with a code of their own. What they can do decides
          which gates they may sign.
        </p>
      )}
      <ul className={styles.people}>
        {here.map((person) => (
          <PersonRow key={person.id} person={person} view={view} onDo={setDoing} />
        ))}
      </ul>
      {gone.length > 0 && (
        <section className="stack-tight">
          <h2 className={styles.name}>No longer here</h2>
          <ul className="lines">
            {gone.map((person) => (
              <li key={person.id} className="line">
                {person.name}
                <WordButton onClick={() => setDoing({ is: 'person', person })}>change</WordButton>
              </li>
            ))}
          </ul>
        </section>
      )}
      {doing?.is === 'person' && (
        <PersonDialog
          person={doing.person}
          workshopWeek={view.week}
          skills={knownSkills(view)}
          onClose={close}
        />
      )}
      {doing?.is === 'code' && <CodeDialog person={doing.person} onClose={close} />}
    </div>
  )
}

function PersonRow({
  person,
  view,
  onDo,
}: {
  readonly person: WorkshopPerson
  readonly view: Workshop
  readonly onDo: (doing: Doing) => void
}) {
  const when = useWhen()
  const week = person.week ?? view.week
  const coming = person.absences.filter(({ to }) => to >= when.today)
  const isAway = coming.some(({ from }) => from <= when.today)
  return (
    <li className={styles.person}>
      <div>
        <h2 className={styles.name}>{person.name}</h2>
        <p className="small quiet">{joinWords(person.roles)}</p>
        <p>{person.skills.length === 0 ? 'no skills named yet' : person.skills.join(', ')}</p>
        {person.contact !== null && person.contact.phone + person.contact.email !== '' && (
          <p className="small quiet">
            {[person.contact.phone, person.contact.email].filter((words) => words !== '').join(', ')}
          </p>
        )}
      </div>
      <figure className={styles.week}>
        <AbsenceStrip absences={coming} from={when.today} />
        <figcaption className={`small ${isAway ? 'is-accent' : 'quiet'}`}>
          {coming.length === 0
            ? 'no absence ahead'
            : `away ${coming.map(({ from, to }) => when.range(from, to)).join('; ')}`}
        </figcaption>
      </figure>
      <figure className={styles.week}>
        <WeekStrip week={week} />
        <figcaption className="small quiet">
          {weekHoursOf(week)} h {person.week === null ? 'as the workshop' : 'own week'}
        </figcaption>
      </figure>
      <div className="button-row">
        <Button onClick={() => onDo({ is: 'person', person })}>
          Change<span className="hidden-word"> {person.name}</span>
        </Button>
        <WordButton onClick={() => onDo({ is: 'code', person })}>
          set the code anew<span className="hidden-word"> of {person.name}</span>
        </WordButton>
      </div>
    </li>
  )
}
