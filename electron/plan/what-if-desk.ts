import type { Plan, WhatIf } from '../../domain/plan/plan.ts'
import type { DeviceId } from '../../domain/ids.ts'
import { ok, refuse, type Result } from '../../domain/refusal.ts'
import type { PlanRequest } from './plan-job.ts'
import type { PlanEnd, PlanRun, PlanRunner } from './plan-runner.ts'

/** Answers 'what if', one question of each device at a time: a newer one ends an older one. */
export function createWhatIfDesk(
  runner: PlanRunner,
  request: (whatIfs: readonly WhatIf[]) => PlanRequest,
): (device: DeviceId, whatIfs: readonly WhatIf[]) => Promise<Result<Plan>> {
  const runs = new Map<DeviceId, PlanRun>()
  return async (device, whatIfs) => {
    runs.get(device)?.stop()
    const run = runner.run(request(whatIfs), 'what if')
    runs.set(device, run)
    const end = await run.end
    if (runs.get(device) === run) runs.delete(device)
    return endToResult(end)
  }
}

/** @throws Error for a defect of the planner */
function endToResult(end: PlanEnd): Result<Plan> {
  switch (end.kind) {
    case 'plan':
      return ok(end.plan)
    case 'refused':
      return { ok: false, refusal: end.refusal }
    case 'stopped':
      return overtaken
    case 'failed':
      throw new Error(end.words)
  }
}

const overtaken = refuse(
  'changed-meanwhile',
  'A newer question has taken the place of this one.',
  'Look at the newer answer, or ask again.',
)
