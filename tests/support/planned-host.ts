import type { PlanBudget } from '../../domain/plan/plan-budget.ts'
import type { CarId } from '../../domain/ids.ts'
import type { RepairPlanOver } from './plans.ts'
import type { PlannerOptions } from '../../electron/plan/planner-service.ts'
import { repairId } from './car-builder.ts'
import { createTestHost, type TestHost, type TestScreen } from './host.ts'
import { repairPlan } from './plans.ts'
import { manager, metalBay } from './workshop.ts'

/** Enough for a few repairs, and over in a moment. */
export const smallBudget: PlanBudget = { seed: 1, placements: 400, slice: 100, samples: 100 }

/** A host that plans by itself, with short waits, and a car in the metal bay with one repair that nobody need agree to. */
export interface PlannedHost {
  readonly host: TestHost
  /** The manager is signed in on it. */
  readonly screen: TestScreen
  readonly carId: CarId
  readonly addRepair: (name: string, over?: RepairPlanOver) => Promise<void>
  /** Waits for a plan that has taken in all facts, and answers what the Plan screen shows. */
  readonly settled: () => Promise<Awaited<ReturnType<TestScreen['client']['plan']['query']>>>
}

export async function createPlannedHost(planner: Partial<PlannerOptions> = {}): Promise<PlannedHost> {
  const host = await createTestHost({
    planner: { quietMs: 60, checkMs: 20, budget: smallBudget, ...planner },
  })
  const screen = await host.openScreen()
  await screen.signIn(manager)
  const carId = host.workshop.addCar('Larkspur 4', 'P-1')
  await screen.run('moveShell', { bayId: metalBay, fixture: 'wheels', note: '' }, { carId })
  const addRepair: PlannedHost['addRepair'] = async (name, over) => {
    const links = { covers: [], coveredBy: [] }
    const plan = repairPlan(name, over)
    await screen.run(
      'addRepair',
      { repairId: repairId(name), type: null, plan, payer: 'workshop', ...links },
      { carId },
    )
  }
  await addRepair('Boot floor')
  const settled = async () => {
    await until(() => {
      const { state, newest } = host.planner.status()
      return state === 'settled' && newest !== null
    }, 'A plan of all facts')
    return screen.client.plan.query()
  }
  return { host, screen, carId, addRepair, settled }
}

/** Waits until something is so. @throws Error after 20 s */
export async function until(isSo: () => boolean | Promise<boolean>, what: string): Promise<void> {
  for (const end = performance.now() + 20_000; performance.now() < end;) {
    if (await isSo()) return
    await new Promise((resolve) => setTimeout(resolve, 10))
  }
  throw new Error(`${what} did not come about in 20 s.`)
}
