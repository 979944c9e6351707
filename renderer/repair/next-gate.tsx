import { Link } from '@tanstack/react-router'
import { hours } from '../../domain/text/words.ts'
import { LeftWords } from '../parts/clock/left-words.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { WordButton } from '../parts/form/button.tsx'
import { AskLine } from './ask-line.tsx'
import { otherHolds } from './asks.ts'
import { FitLines } from './fit-lines.tsx'
import { isBegun } from './gate-list.tsx'
import { Hold } from './hold.tsx'
import { useRepair } from './repair-context.ts'

/** 'primed is next', with what it asks for line by line, and what holds it. */
export function NextGate() {
  const { view } = useRepair()
  return view.next === null ? <NothingNext /> : <Next next={view.next} />
}

type NextView = NonNullable<ReturnType<typeof useRepair>['view']['next']>

function Next({ next }: { readonly next: NextView }) {
  const { open } = useRepair()
  const { shortest, longest } = next.hours
  const left = next.asks.filter((ask) => !ask.met).length
  return (
    <section className="stack" aria-label={`${next.gate} is next`}>
      <div>
        <div className="spread">
          <h2>{next.gate} is next</h2>
          <span className="quiet small">{left === 0 ? 'all there' : `${left} to bring`}</span>
        </div>
        <p className="quiet small">
          {next.skill}, {next.people === 1 ? 'one person' : `${next.people} people`}, {next.bayKind}
          {next.hotWork && ', hot work'};{' '}
          {shortest === longest ? hours(longest) : `${shortest} to ${hours(longest)}`}
        </p>
        <StillToDo gate={next.gate} />
      </div>
      <ul className="lines">
        {next.asks.map((ask) => (
          <AskLine key={ask.key} ask={ask} gate={next.gate} />
        ))}
        <FitLines gate={next.gate} />
        {next.asks.length === 0 && (
          <li className="line quiet">This gate asks for nothing but the signature.</li>
        )}
      </ul>
      {otherHolds(next).map((hold) => (
        <Hold key={`${hold.code}${hold.subject}`} hold={hold} />
      ))}
      {left > 0 && (
        <WordButton onClick={() => open({ kind: 'release', hold: null })}>
          something cannot be brought: ask for a release
        </WordButton>
      )}
      {next.cautions.length > 0 && (
        <Notice kind="caution">
          <p className="strong">Mind, at {next.gate}:</p>
          {next.cautions.map((words) => (
            <p key={words} className="small">
              {words}
            </p>
          ))}
        </Notice>
      )}
    </section>
  )
}

/** Of a gate that was begun: what was said to be left, and where to say it anew. */
function StillToDo({ gate }: { readonly gate: NextView['gate'] }) {
  const { view, open } = useRepair()
  const begun = view.gates.find((each) => each.gate === gate && isBegun(each))
  if (begun === undefined) return null
  return (
    <p className="small">
      {hours(begun.hours.spent)} spent
      {begun.left !== null && (
        <>
          ; <LeftWords left={begun.left} />
        </>
      )}{' '}
      <WordButton onClick={() => open({ kind: 'say left', gate })}>say what is still to do</WordButton>
    </p>
  )
}

function NothingNext() {
  const { view } = useRepair()
  const { repair, car } = view
  return (
    <section className="stack-tight">
      <h2>{repair.finished ? 'This repair is finished' : 'No gate is next'}</h2>
      <p className="quiet">
        {repair.closedAsFound
          ? 'It was closed as found and is named in the report and the car’s file.'
          : repair.retired
            ? 'It is retired; nothing is done on it any more.'
            : 'Every gate is passed or not needed. The manager can reopen one, with a cause.'}
      </p>
      <Link to="/cars/$carId" params={{ carId: car.carId }} activeOptions={{ exact: true }}>
        To the closing map of {car.name}
      </Link>
    </section>
  )
}
