import { useQuery } from '@tanstack/react-query'
import { Link } from '@tanstack/react-router'
import { useEffect, useState } from 'react'
import type { WhatIf } from '../../domain/plan/plan.ts'
import { api } from '../client.ts'
import { Button, WordButton } from '../parts/form/button.tsx'
import { newId } from '../parts/form/new-id.ts'
import { Notice, RefusalNote } from '../parts/form/notice.tsx'
import { isSettled } from '../parts/form/settled.ts'
import { useCommand } from '../parts/form/use-command.ts'
import { ManagersOnly } from '../parts/frame/managers-only.tsx'
import { useWhen } from '../parts/frame/when.tsx'
import type { Assumption } from './assumption.ts'
import { ComparisonTable } from './comparison-table.tsx'
import styles from './plan.module.css'
import { comparisonWords } from './plan-words.ts'
import { type Foreseen, tryWhatIf } from './try-what-if.ts'
import { whatIfAct } from './what-if-acts.ts'
import { WhatIfForm } from './what-if-form.tsx'

/** What if somebody is off, a part is late, a car comes in: compared with the plan as it is, then taken or thrown away. */
export function WhatIfSheet() {
  return (
    <ManagersOnly
      title="What if is tried by managers only"
      why="Somebody off, a late part, a new car, overtime or one more bay: what would come of it stands beside the plan once you have given your code on this device."
    >
      <Trial />
    </ManagersOnly>
  )
}

function Trial() {
  const [assumed, setAssumed] = useState<readonly Assumption[]>([])
  const foreseen = useForeseen(assumed)
  return (
    <div className={styles.whatIf}>
      <div className="stack">
        <WhatIfForm onAssume={(next) => setAssumed([...assumed, next])} />
        <Assumed assumed={assumed} onChange={setAssumed} />
      </div>
      <div className="stack">
        <Outcome assumed={assumed} foreseen={foreseen} onDone={() => setAssumed([])} />
      </div>
    </div>
  )
}

/** Asked anew whenever what is assumed changes. */
function useForeseen(assumed: readonly Assumption[]): Foreseen {
  const [known, setKnown] = useState<{
    readonly of: readonly Assumption[]
    readonly foreseen: Foreseen
  } | null>(null)
  useEffect(() => {
    if (assumed.length === 0) return
    const stop = new AbortController()
    void tryWhatIf(
      assumed.map(({ whatIf }) => whatIf),
      stop.signal,
    ).then((foreseen) => {
      if (!stop.signal.aborted) setKnown({ of: assumed, foreseen })
    })
    return () => stop.abort()
  }, [assumed])
  if (assumed.length === 0) return { is: 'nothing' }
  return known?.of === assumed ? known.foreseen : { is: 'asked' }
}

function Assumed({
  assumed,
  onChange,
}: {
  readonly assumed: readonly Assumption[]
  readonly onChange: (assumed: readonly Assumption[]) => void
}) {
  if (assumed.length === 0) return null
  return (
    <section>
      <h2 className="minor">Assumed</h2>
      <ul className="lines">
        {assumed.map((each) => (
          <li key={each.words} className="line">
            <span>{each.words}</span>
            <WordButton onClick={() => onChange(assumed.filter((other) => other !== each))}>
              leave out<span className="hidden-word">: {each.words}</span>
            </WordButton>
          </li>
        ))}
      </ul>
    </section>
  )
}

function Outcome({
  assumed,
  foreseen,
  onDone,
}: {
  readonly assumed: readonly Assumption[]
  readonly foreseen: Foreseen
  readonly onDone: () => void
}) {
  const when = useWhen()
  switch (foreseen.is) {
    case 'nothing':
      return (
        <p className="quiet">
          Assume something and try it: every car’s finish then stands here side by side, as the plan is and as
          it would be. Nothing is changed by trying.
        </p>
      )
    case 'asked':
      return <p className="quiet">Reckoning…</p>
    case 'failed':
      return (
        <Notice kind="refused">
          <p>{foreseen.words}</p>
        </Notice>
      )
    case 'known': {
      const { answer } = foreseen
      if (answer.words !== '') {
        return (
          <Notice kind="refused">
            <p>{answer.words}</p>
          </Notice>
        )
      }
      return (
        <>
          <p className="strong" role="status">
            So there would be {comparisonWords(answer, when)}.
          </p>
          <TakeWhatIf assumed={assumed} onDone={onDone} />
          <ComparisonTable comparison={answer} after="if so" />
        </>
      )
    }
  }
}

/** Taking records what was assumed; the plan then follows by itself and is proposed. */
function TakeWhatIf({
  assumed,
  onDone,
}: {
  readonly assumed: readonly Assumption[]
  readonly onDone: () => void
}) {
  const workshop = useQuery(api.workshop.queryOptions())
  const command = useCommand()
  const cars = assumed.filter(({ whatIf }) => whatIf.kind === 'new car')
  const facts = assumed.filter(({ whatIf }) => whatIf.kind !== 'new car')
  const take = async () => {
    if (workshop.data === undefined) return
    for (const { whatIf } of facts) if (!(await takeOne(whatIf))) return
    onDone()
  }
  const takeOne = async (whatIf: WhatIf): Promise<boolean> => {
    const act = workshop.data === undefined ? null : whatIfAct(whatIf, workshop.data, newId)
    return act === null || isSettled(await command.send(act))
  }
  return (
    <div className="stack-tight">
      <div className="row">
        {facts.length > 0 && (
          <Button
            kind="main"
            onClick={() => void take()}
            aria-disabled={command.isBusy || workshop.data === undefined}
          >
            It is so: record it
          </Button>
        )}
        {cars.length > 0 && (
          <Link to="/cars" search={{ add: true }} className="button">
            Add the new car
          </Link>
        )}
        <Button onClick={onDone}>Throw it away</Button>
      </div>
      <RefusalNote refusal={command.refusal} />
    </div>
  )
}
