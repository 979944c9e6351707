import { bayIdSchema, overtimeIdSchema } from '../../ids.ts'
import { ok, refuse, type Result } from '../../refusal.ts'
import type { WorkshopState } from '../../workshop.ts'
import type { PlanInput } from '../plan-input.ts'
import { daysRefusal, unknown, type WhatIfOf } from './refusals.ts'

/** Somebody is off from a day to a day, both included. */
export function personOff(
  input: PlanInput,
  { personId, from, to }: WhatIfOf<'person off'>,
): Result<PlanInput> {
  const person = input.workshop.people.get(personId)
  if (person === undefined) return unknown('person')
  const absences = [...person.absences, { from, to }]
  const people = new Map(input.workshop.people).set(personId, { ...person, absences })
  return daysRefusal(input, from, to) ?? withWorkshop(input, { people })
}

export function overtime(
  input: PlanInput,
  { people, from, to, weekdays, span }: WhatIfOf<'overtime'>,
): Result<PlanInput> {
  if (people.some((id) => !input.workshop.people.has(id))) return unknown('person')
  if (span.to <= span.from)
    return refuse('bad-input', 'The overtime ends before it starts.', 'Correct the times.')
  const id = overtimeIdSchema.parse(`what-if-overtime-${input.workshop.overtime.size + 1}`)
  const added = new Map(input.workshop.overtime).set(id, { id, people, from, to, weekdays, span })
  return daysRefusal(input, from, to) ?? withWorkshop(input, { overtime: added })
}

export function oneMoreBay(input: PlanInput, { name, kinds }: WhatIfOf<'one more bay'>): Result<PlanInput> {
  const id = bayIdSchema.parse(`what-if-bay-${input.workshop.bays.size + 1}`)
  const bay = { id, name, kinds, floor: { x: 0, y: 0, width: 42, height: 60 }, active: true }
  return withWorkshop(input, { bays: new Map(input.workshop.bays).set(id, bay) })
}

const withWorkshop = (input: PlanInput, changed: Partial<WorkshopState>): Result<PlanInput> =>
  ok({ ...input, workshop: { ...input.workshop, ...changed } })
