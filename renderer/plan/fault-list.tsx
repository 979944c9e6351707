import { Link } from '@tanstack/react-router'
import { useState } from 'react'
import type { PlanFault } from '../../domain/plan/plan.ts'
import { plural } from '../../domain/text/words.ts'
import { WordButton } from '../parts/form/button.tsx'
import { Notice } from '../parts/form/notice.tsx'
import { useShownPlan } from './plan-context.ts'

/** So many are shown before the rest is asked for. */
const FIRST = 3

/** What could not be planned, or not as pinned, and what to do next; the rest is planned. */
export function FaultList({ faults }: { readonly faults: readonly PlanFault[] }) {
  const { names } = useShownPlan()
  const [isWhole, setIsWhole] = useState(false)
  const shown = isWhole ? faults : faults.slice(0, FIRST)
  if (faults.length === 0) return null
  return (
    <Notice kind="held">
      <h2 className="minor">
        {plural('thing', faults.length)} could not be planned{faults.length === 1 ? '' : ' yet'}
      </h2>
      <ul className="lines">
        {shown.map(({ carId, code, words, next }) => (
          <li key={`${carId} ${code} ${words}`}>
            {carId !== null && (
              <>
                <Link to="/cars/$carId" params={{ carId }} className="strong reaching">
                  {names.car(carId)}
                </Link>
                {': '}
              </>
            )}
            {words} <span className="strong">{next}</span>
          </li>
        ))}
      </ul>
      {faults.length > shown.length && (
        <div>
          <WordButton onClick={() => setIsWhole(true)}>Show all {faults.length}</WordButton>
        </div>
      )}
    </Notice>
  )
}
