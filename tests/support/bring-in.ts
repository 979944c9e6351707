import type { Side } from '../../domain/facts/shapes.ts'
import { planImport } from '../../domain/import/plan-import.ts'
import { personId } from './car-builder.ts'
import type { Driver, Outcome } from './driver.ts'

/** How the ids begin that a file's repairs are given. */
export const IMPORT_ID = 'a0000000-0000-4000-8000-'

/** A file with one repair over two that are there, given command by command as the host does. */
export const bringIn = (driver: Driver, covers: readonly string[], side: Side): Outcome | undefined => {
  const importId = `${IMPORT_ID}${String(driver.facts.length).padStart(12, '0')}`
  const name = `From file ${driver.facts.length}`
  const text = `shell number,repair type,name,side,payer,covers\n0417,Usual skin,${name},${side},workshop,${covers.join('|')}\n`
  const context = {
    workshop: driver.workshop,
    cars: [driver.car],
    nameOf: (id: string) => id,
    by: personId('Mara'),
    importId,
    made: '2026-03-04T09:00:00Z',
  }
  const plan = planImport('repairs', text, context)
  if (!plan.ok) throw new Error(plan.refusal.message)
  const outcomes = plan.value.commands.map(({ command }) =>
    driver.give(command.kind, command.payload as never),
  )
  return outcomes.find((outcome) => !outcome.ok) ?? outcomes.at(-1)
}
