import { useActor } from '../parts/sign/actor.tsx'
import { Menu } from '../parts/form/menu.tsx'
import { type Doing, useRepair } from './repair-context.ts'

/** What only the manager does to the repair as a whole. */
export function ManagerMenu() {
  const { open, view } = useRepair()
  const { manager } = useActor()
  if (manager === null || view.repair.retired) return null
  const entry = (words: string, doing: Doing) => ({ id: doing.kind, words, onChoose: () => open(doing) })
  return (
    <Menu
      label="Manager"
      entries={[
        ...(view.next === null
          ? []
          : [
              entry(`Change ${view.next.gate}: hours, skill, asks`, {
                kind: 'gate plan',
                gate: view.next.gate,
              }),
            ]),
        entry('Review the estimate', { kind: 'review' }),
        entry('Set a hold', { kind: 'set hold' }),
        entry('Change name, side and order', { kind: 'plan' }),
        entry('Change the layers', { kind: 'layers plan' }),
        entry('Change the weld plan', { kind: 'weld plan' }),
        entry('Raise a variation', { kind: 'variation' }),
        entry('Close as found', { kind: 'as found' }),
        entry('Split it in two', { kind: 'split' }),
        entry('Merge it into another', { kind: 'merge' }),
        entry('Retire it', { kind: 'retire' }),
      ]}
    />
  )
}
