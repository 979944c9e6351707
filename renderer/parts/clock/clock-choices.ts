import type { WorkTarget } from '../../../domain/facts/shapes.ts'
import type { CarId } from '../../../domain/ids.ts'
import type { DaySheetLine } from '../../../domain/views/view-shapes.ts'
import { lineTarget } from '../car/line-target.ts'

/** A gate or task that a clock may run on together with others of its car. */
export interface ClockChoice {
  readonly key: string
  readonly words: string
  readonly carId: CarId
  readonly carName: string
  readonly target: WorkTarget
  readonly hotWork: boolean
  readonly isRework: boolean
}

/** The lines of a day sheet as choices. */
export function lineChoices(lines: readonly DaySheetLine[]): readonly ClockChoice[] {
  return lines.flatMap((line) => {
    const target = lineTarget(line)
    if (target === null) return []
    const { carId, carName, hotWork, name, gate } = line
    const words = gate === null ? name : `${name}: ${gate}`
    return [{ key: choiceKey(target), words, carId, carName, target, hotWork, isRework: false }]
  })
}

const choiceKey = (target: WorkTarget): string => (target.kind === 'gate' ? target.repairId : target.taskId)

/** Cars with more than one thing to choose, in the order of the choices. */
export function carsOfSeveral(choices: readonly ClockChoice[]): ReadonlyMap<CarId, readonly ClockChoice[]> {
  return new Map([...Map.groupBy(choices, ({ carId }) => carId)].filter(([, of]) => of.length > 1))
}
