import { Link } from '@tanstack/react-router'
import type { PlanView } from '../../domain/views/plan-view-shapes.ts'
import { EmptyState } from '../parts/form/notice.tsx'

/** What is missing before there can be a plan; null when nothing is. */
export function emptyPlan({ people, bays, cars, inForce, proposal, state }: PlanView) {
  if (people.length === 0) return <NoPeople />
  if (bays.every(({ storage }) => storage)) return <NoBays />
  // Cars are those of the plans, so none are told before there is one.
  if (inForce === null && proposal === null && state === 'planning') return <NoPlanYet />
  return cars.length === 0 ? <NoCars /> : null
}

function NoPeople() {
  return (
    <EmptyState
      title="A plan needs people"
      action={
        <Link to="/workshop" search={{ sheet: 'people' }} className="button main">
          Add the people
        </Link>
      }
    >
      Say who works here, what each of them can do, and when. The plan then gives every gate to somebody who
      can do it and is there.
    </EmptyState>
  )
}

function NoBays() {
  return (
    <EmptyState
      title="A plan needs bays"
      action={
        <Link to="/workshop" search={{ sheet: 'bays' }} className="button main">
          Arrange the bays
        </Link>
      }
    >
      Say which bays there are and what can be done in each: metalwork, jig, lift, preparation, booth. A yard
      alone is no place to work in.
    </EmptyState>
  )
}

function NoCars() {
  return (
    <EmptyState
      title="No car is in work"
      action={
        <Link to="/cars" className="button main">
          To the cars
        </Link>
      }
    >
      Add a car with its repairs and set its visit to ‘in work’: the plan then says who does what where and
      when, and when the car will be done.
    </EmptyState>
  )
}

function NoPlanYet() {
  return (
    <EmptyState title="The first plan is being made">
      It takes a few seconds. This page shows it as soon as it is there.
    </EmptyState>
  )
}
