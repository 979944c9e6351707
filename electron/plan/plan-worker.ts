/*
 * Plans off the host's event loop; started and fed by plan-runner.ts. It works in slices and looks between them for what
 * was asked meanwhile: a what-if goes before a replan, and what was stopped is dropped. An error of one request is its
 * answer, so that the next one finds the worker as it was.
 */
import { setImmediate } from 'node:timers/promises'
import { parentPort } from 'node:worker_threads'
import { makePlan, type PlanStep } from '../../domain/plan/make-plan.ts'
import { applyWhatIf } from '../../domain/plan/what-if.ts'
import { ok } from '../../domain/refusal.ts'
import { errorStack } from '../../domain/text/error-words.ts'
import type { FromPlanWorker, PlanRequest, ToPlanWorker, Urgency } from './plan-job.ts'

interface Run {
  readonly id: number
  readonly urgency: Urgency
  readonly request: PlanRequest
  /** Made with its first slice. */
  steps: Iterator<PlanStep> | null
}

const runs: Run[] = []
let isHeld = false
let isWorking = false

parentPort?.on('message', (message: ToPlanWorker) => {
  switch (message.kind) {
    case 'plan':
      runs.push({ id: message.id, urgency: message.urgency, request: message.request, steps: null })
      break
    case 'stop':
      remove(message.id)
      break
    case 'hold':
      isHeld = message.held
      break
  }
  if (!isWorking) void work()
})

async function work(): Promise<void> {
  isWorking = true
  for (let run = nextRun(); run !== undefined; run = nextRun()) {
    advance(run)
    await setImmediate()
  }
  isWorking = false
}

function nextRun(): Run | undefined {
  return (
    runs.find(({ urgency }) => urgency === 'what if') ??
    runs.find(({ urgency }) => urgency === 'replan' && !isHeld)
  )
}

/** One slice of one run. */
function advance(run: Run): void {
  try {
    run.steps ??= begin(run)
    const step = run.steps?.next()
    if (step?.done === false) tell(run, step.value)
    else remove(run.id)
  } catch (error) {
    remove(run.id)
    post({
      id: run.id,
      kind: 'failed',
      words: errorStack(error),
    })
  }
}

/** Null when what was asked cannot be tried. */
function begin({ id, request }: Run): Iterator<PlanStep> | null {
  const input = inputOf(request)
  if (input.ok) return makePlan(input.value, request.budget)
  post({ id, kind: 'refused', refusal: input.refusal })
  return null
}

function inputOf({ input: { names, ...input }, whatIfs }: PlanRequest): ReturnType<typeof applyWhatIf> {
  const asItIs: ReturnType<typeof applyWhatIf> = ok({ ...input, nameOf: (id) => names.get(id) ?? id })
  return whatIfs.reduce((so, whatIf) => (so.ok ? applyWhatIf(so.value, whatIf) : so), asItIs)
}

function tell({ id }: Run, step: PlanStep): void {
  switch (step.kind) {
    case 'slice':
      return post({ id, kind: 'slice' })
    case 'plan':
      return post({ id, kind: 'plan', plan: step.plan, isFinal: step.isFinal })
    case 'defect':
      remove(id)
      return post({ id, kind: 'failed', words: step.words })
  }
}

function remove(id: number): void {
  const at = runs.findIndex((run) => run.id === id)
  if (at >= 0) runs.splice(at, 1)
}

function post(message: FromPlanWorker): void {
  parentPort?.postMessage(message)
}
