import type { RepairPlan } from '../../domain/facts/shapes.ts'
import { useCommand, type CommandState } from '../parts/form/use-command.ts'
import { useRepair } from './repair-context.ts'

/** Sends a changed plan with the revision it was made on: if that has moved on, nobody's change is overwritten. */
export function useChangePlan(): {
  readonly command: CommandState
  readonly change: (plan: RepairPlan, reason: string) => ReturnType<CommandState['send']>
} {
  const { view } = useRepair()
  const command = useCommand()
  return {
    command,
    change: (plan, reason) =>
      command.send({
        kind: 'changeRepair',
        carId: view.car.carId,
        seen: view.car.revision,
        payload: { repairId: view.repair.id, plan, typeVersion: null, reason },
      }),
  }
}
