import type { CommandPayload } from '../../domain/commands/command-shapes.ts'
import type { WorkTarget } from '../../domain/facts/shapes.ts'
import { planIdSchema, type CarId, type PersonId, type VisitId } from '../../domain/ids.ts'
import type { Plan, PlannedWork } from '../../domain/plan/plan.ts'
import { keepPlan } from '../../db/plans.ts'
import { simplePlan } from './kept-plan.ts'
import { welder, type Workshop } from './workshop.ts'

/** Work on one gate or task from one moment to another, ISO 8601 with offset. */
export interface PieceOver {
  readonly carId: CarId
  readonly visitId: VisitId
  readonly target: WorkTarget
  readonly start: string
  readonly finish: string
  readonly people?: readonly PersonId[]
}

const plannedPiece = ({
  carId,
  visitId,
  target,
  start,
  finish,
  people = [welder],
}: PieceOver): PlannedWork => ({
  carId,
  visitId,
  target,
  start: Date.parse(start),
  finish: Date.parse(finish),
  people: [...people],
  bayId: null,
  hours: 2,
  begun: false,
  pinned: { people: false, day: false },
  why: { reason: 'now', words: 'it can start' },
})

/** Keeps a plan of these pieces and takes it, as the manager does. */
export function takePlan(workshop: Workshop, name: string, pieces: readonly PieceOver[]): void {
  const planId: CommandPayload<'takePlan'>['planId'] = planIdSchema.parse(`plan-${name}`)
  const [first] = pieces
  if (first === undefined) throw new Error('Give the plan a piece of work.')
  const plan: Plan = { ...simplePlan(first.carId), work: pieces.map(plannedPiece), cars: [] }
  keepPlan(workshop.db, { planId, plan, why: 'proposal', cause: '', revision: 1 }, workshop.now)
  workshop.run('takePlan', { planId })
}
