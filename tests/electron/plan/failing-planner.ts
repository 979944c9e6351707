/*
 * Stands in for the plan worker: fails in the way that the seed of what it is asked says, or answers a plan that says
 * which seed it was made from.
 */
import process from 'node:process'
import { parentPort } from 'node:worker_threads'
import { carIdSchema } from '../../../domain/ids.ts'
import type { FromPlanWorker, ToPlanWorker } from '../../../electron/plan/plan-job.ts'
import { simplePlan } from '../../support/kept-plan.ts'

export const THROWS = 101
export const EXITS = 102
export const HANGS = 103
export const IS_SILENT = 104

const post = (message: FromPlanWorker): void => parentPort?.postMessage(message)

parentPort?.on('message', (message: ToPlanWorker) => {
  if (message.kind !== 'plan') return
  const { id, request } = message
  const { seed } = request.budget
  if (seed === THROWS) throw new Error('a defect in the planner')
  if (seed === EXITS) process.exit(7)
  if (seed === HANGS) for (;;);
  if (seed === IS_SILENT) return
  const plan = { ...simplePlan(carIdSchema.parse('car-dunmere')), madeAt: seed }
  post({ id, kind: 'plan', plan: { ...plan, madeAt: -seed }, isFinal: false })
  post({ id, kind: 'slice' })
  post({ id, kind: 'plan', plan, isFinal: true })
})
