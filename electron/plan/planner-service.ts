import type { Database } from '../../db/database.ts'
import type { MadePlan } from '../../db/keep-with-cause.ts'
import { factsSince, lastNumber } from '../../db/journal.ts'
import { planInForce, type PlanInForce } from '../../db/plans.ts'
import { isPlanKept } from '../../db/last-kept-plan.ts'
import { readWorkshop } from '../../db/reads.ts'
import type { Moment } from '../../domain/car.ts'
import { QUICK_BUDGET, USUAL_BUDGET, type PlanBudget } from '../../domain/plan/plan-budget.ts'
import { isPlannedBy } from '../../domain/plan/planned-by.ts'
import type { WhatIf } from '../../domain/plan/plan.ts'
import { ok, refuse } from '../../domain/refusal.ts'
import { errorStack } from '../../domain/text/error-words.ts'
import type { Planner } from '../api/planner.ts'
import { createDayKeeper } from './day-keeper.ts'
import { keepIfMoved, keepProposal, newPlanId, takeByItself } from './keep-plans.ts'
import { isOld } from './plan-age.ts'
import { readPlanRequest } from './plan-requests.ts'
import { createPlanRunner, type PlanEnd, type PlanRun, type PlanRunnerOptions } from './plan-runner.ts'
import { createWhatIfDesk } from './what-if-desk.ts'

export interface PlannerOptions extends PlanRunnerOptions {
  readonly db: Database
  /** The host's clock, epoch milliseconds. */
  readonly now: () => Moment
  /** Told of defects. */
  readonly log: (words: string) => void
  /** So long nothing may come in before it is planned anew. */
  readonly quietMs?: number
  /** How often the clock is looked at: one long timer goes wrong where a computer sleeps. */
  readonly checkMs?: number
  readonly budget?: PlanBudget
}

export interface PlannerService extends Planner {
  /**
   * Begins to plan by itself, with the workshop as it stands. What finished repairs tell is learned for it as soon as it is quiet,
   * before anybody asks for an estimate.
   */
  readonly start: () => void
  /** While uploads are under way nothing is replanned; what-ifs go on. */
  readonly hold: (held: boolean) => void
  readonly close: () => Promise<void>
}

/**
 * Keeps a newest plan in step with the facts: waits until it has been quiet, plans in a worker and ends a run that newer
 * facts have overtaken. Plans are kept when they are taken, at each day's end and when a car's finish has moved by a day.
 */
export function createPlanner(options: PlannerOptions): PlannerService {
  const { db, now, log, quietMs = 2_000, checkMs = 30_000, budget = USUAL_BUDGET } = options
  const runner = createPlanRunner(options)
  const keepEndedDay = createDayKeeper(db, now)
  const listeners: (() => void)[] = []
  let newest: MadePlan | null = null
  /** When somebody last looked at the newest plan. */
  let lookedAt: Moment | null = null
  let inForce: PlanInForce | null = null
  let running: PlanRun | null = null
  /** Runs while it is waited for quiet. */
  let quiet: NodeJS.Timeout | null = null
  let checks: NodeJS.Timeout | undefined
  let isStarted = false
  /** Journal number up to which facts have been looked through. */
  let seen = 0
  let failures = 0

  const tellMoved = (): void => {
    for (const listener of listeners) listener()
  }

  /** What is done by itself must not end the host: a defect is logged, and the next fact tries again. */
  const guarded = (work: () => void) => (): void => {
    try {
      work()
    } catch (error) {
      log(`planner: ${errorStack(error)}`)
    }
  }

  /** Read once for each plan that is taken: a large one takes tens of milliseconds to unpack. */
  function currentInForce(): PlanInForce | null {
    const planId = readWorkshop(db).planTaken?.planId ?? null
    if (inForce?.planId !== planId) inForce = planId === null ? null : planInForce(db)
    return inForce
  }

  /** It begins from the plan that its answer is held against, so that only what is asked about makes the difference. */
  const whatIfRequest = (whatIfs: readonly WhatIf[]) => {
    const inForce = newest?.plan ?? currentInForce()?.plan ?? null
    return readPlanRequest(db, { now: now(), inForce, whatIfs, budget: QUICK_BUDGET })
  }

  function replanSoon(): void {
    endQuiet()
    if (isStarted) quiet = setTimeout(guarded(replan), quietMs).unref()
  }

  function endQuiet(): void {
    if (quiet !== null) clearTimeout(quiet)
    quiet = null
  }

  function replan(): void {
    endQuiet()
    running?.stop()
    running = null
    if (!readWorkshop(db).setUp) return
    const revision = lastNumber(db)
    const inForce = currentInForce()?.plan ?? null
    const request = readPlanRequest(db, { now: now(), inForce, whatIfs: [], budget })
    const run = runner.run(request, 'replan', (plan) => {
      if (running === run && newest === null) show({ planId: newPlanId(), plan, revision })
    })
    running = run
    void run.end.then((end) => {
      if (running === run) guarded(() => settle(end, revision))()
    })
    tellMoved()
  }

  function show(made: MadePlan): void {
    newest = made
    lookedAt = null
    tellMoved()
  }

  function settle(end: PlanEnd, revision: number): void {
    running = null
    if (end.kind !== 'plan') return settleWithout(end)
    failures = 0
    const made: MadePlan = { planId: newPlanId(), plan: end.plan, revision }
    try {
      takeByItself(db, made, currentInForce(), now())
      keepEndedDay(made)
      keepIfMoved(db, made, now())
    } finally {
      show(made)
    }
  }

  /** The former plan stays. A worker that was lost is tried once more; a defect would only come again. */
  function settleWithout(end: PlanEnd): void {
    if (end.kind === 'failed') log(`planner: ${end.words}`)
    failures += 1
    if (failures === 1) replanSoon()
    tellMoved()
  }

  function check(): void {
    if (newest === null || running !== null || quiet !== null) return
    keepEndedDay(newest)
    if (isOld({ madeAt: newest.plan.madeAt, lookedAt }, now(), readWorkshop(db))) replan()
  }

  return {
    status: () => ({ state: running === null && quiet === null ? 'settled' : 'planning', newest }),
    inForce: currentInForce,
    onMoved: (listener) => void listeners.push(listener),
    look: guarded(() => {
      lookedAt = now()
      if (isStarted) check()
    }),
    factsAdded: guarded(() => {
      if (!isStarted) return
      const facts = factsSince(db, seen)
      seen = facts.at(-1)?.number ?? seen
      if (facts.some(({ kind }) => isPlannedBy(kind))) replanSoon()
    }),
    keep: (planId) => {
      if (isPlanKept(db, planId)) return ok(true)
      if (newest?.planId !== planId) return movedOn
      return keepProposal(db, newest, now())
    },
    tryWhatIf: createWhatIfDesk(runner, whatIfRequest),
    start: () => {
      isStarted = true
      seen = lastNumber(db)
      replanSoon()
      checks = setInterval(guarded(check), checkMs).unref()
    },
    hold: runner.hold,
    close: async () => {
      isStarted = false
      endQuiet()
      clearInterval(checks)
      await runner.close()
    },
  }
}

const movedOn = refuse(
  'changed-meanwhile',
  'The plan has moved on since this one was shown.',
  'Look at the plan as it is now and take that.',
)
