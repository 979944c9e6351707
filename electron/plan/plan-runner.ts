import { Worker } from 'node:worker_threads'
import type { Plan } from '../../domain/plan/plan.ts'
import type { Refusal } from '../../domain/refusal.ts'
import { errorMessage } from '../../domain/text/error-words.ts'
import type { FromPlanWorker, PlanRequest, ToPlanWorker, Urgency } from './plan-job.ts'

/** How a request ended. */
export type PlanEnd =
  | { readonly kind: 'plan'; readonly plan: Plan }
  /** What was asked cannot be tried. */
  | { readonly kind: 'refused'; readonly refusal: Refusal }
  /** A newer request took its place, or the program is closing. */
  | { readonly kind: 'stopped' }
  /** A defect, or a worker that was lost; in words for the log. */
  | { readonly kind: 'failed'; readonly words: string }

export interface PlanRun {
  readonly end: Promise<PlanEnd>
  /** Ends it between two slices; one that has ended stays as it is. */
  readonly stop: () => void
}

export interface PlanRunner {
  /** @param onFirst told of a plan that will still be improved */
  readonly run: (request: PlanRequest, urgency: Urgency, onFirst?: (plan: Plan) => void) => PlanRun
  /** While it is held nothing is replanned, so that other work has the processor; what-ifs go on. */
  readonly hold: (held: boolean) => void
  readonly close: () => Promise<void>
}

export interface PlanRunnerOptions {
  /** A worker that is not heard of for so long while it should be at work is ended. */
  readonly silenceMs?: number
  /** A worker without work ends after this, which gives its memory back. */
  readonly idleMs?: number
  /** Tests put a worker here that fails. */
  readonly workerUrl?: URL
}

interface Asked {
  readonly urgency: Urgency
  readonly answer: (end: PlanEnd) => void
  readonly onFirst: (plan: Plan) => void
}

/** JavaScript heap only. Eighty cars with 5,000 gates come to some 150 MB. */
const resourceLimits = { maxOldGenerationSizeMb: 512 }

/** One worker thread at most, made when there is work. One that is lost fails what it was asked, and the next is new. */
export function createPlanRunner(options: PlanRunnerOptions = {}): PlanRunner {
  const { silenceMs = 60_000, idleMs = 30_000, workerUrl = planWorkerUrl } = options
  const asked = new Map<number, Asked>()
  let worker: Worker | null = null
  let timer: NodeJS.Timeout | undefined
  let isHeld = false
  let isClosed = false
  let lastId = 0

  const tell = (message: ToPlanWorker): void => worker?.postMessage(message)

  function start(): Worker {
    const started = new Worker(workerUrl, { resourceLimits })
    started.on('message', (message: FromPlanWorker) => {
      if (worker === started) hear(message)
    })
    started.on('error', (error) => lose(started, errorMessage(error)))
    started.on('exit', (code) => lose(started, `it ended with code ${code}`))
    return started
  }

  function hear(message: FromPlanWorker): void {
    switch (message.kind) {
      case 'slice':
        break
      case 'plan':
        if (message.isFinal) finish(message.id, { kind: 'plan', plan: message.plan })
        else asked.get(message.id)?.onFirst(message.plan)
        break
      case 'refused':
        finish(message.id, { kind: 'refused', refusal: message.refusal })
        break
      case 'failed':
        finish(message.id, { kind: 'failed', words: message.words })
        break
    }
    watch()
  }

  function finish(id: number, end: PlanEnd): void {
    const finished = asked.get(id)
    asked.delete(id)
    finished?.answer(end)
  }

  /** Looks after the worker: one that should be at work must be heard of, one without work keeps no process alive. */
  function watch(): void {
    clearTimeout(timer)
    const watched = worker
    if (watched === null) return
    const isAtWork = [...asked.values()].some(({ urgency }) => urgency === 'what if' || !isHeld)
    if (isAtWork) {
      watched.ref()
      timer = setTimeout(() => lose(watched, `nothing was heard of it for ${silenceMs / 1000} s`), silenceMs)
    } else if (asked.size === 0) {
      watched.unref()
      timer = setTimeout(() => void end(), idleMs).unref()
    }
  }

  function lose(gone: Worker, reason: string): void {
    if (worker !== gone) return
    clearTimeout(timer)
    worker = null
    void gone.terminate()
    for (const id of asked.keys()) finish(id, { kind: 'failed', words: `The planner was lost: ${reason}.` })
  }

  async function end(): Promise<void> {
    clearTimeout(timer)
    const ended = worker
    worker = null
    await ended?.terminate()
  }

  return {
    run: (request, urgency, onFirst = () => {}) => {
      if (isClosed) return { end: Promise.resolve({ kind: 'stopped' }), stop: () => {} }
      lastId += 1
      const id = lastId
      if (worker === null) {
        worker = start()
        tell({ kind: 'hold', held: isHeld })
      }
      tell({ kind: 'plan', id, urgency, request })
      const end = new Promise<PlanEnd>((answer) => asked.set(id, { urgency, answer, onFirst }))
      watch()
      const stop = (): void => {
        if (!asked.has(id)) return
        tell({ kind: 'stop', id })
        finish(id, { kind: 'stopped' })
        watch()
      }
      return { end, stop }
    },
    hold: (held) => {
      isHeld = held
      tell({ kind: 'hold', held })
      watch()
    },
    close: async () => {
      isClosed = true
      for (const id of asked.keys()) finish(id, { kind: 'stopped' })
      await end()
    },
  }
}

/**
 * The one place that says where the worker is. It stays a literal: from source Node runs the TypeScript file itself, and
 * the build (build/bring-along.ts) makes the worker an entry of its own and points this line to the result.
 */
const planWorkerUrl = new URL('./plan-worker.ts', import.meta.url)
