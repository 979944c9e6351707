import type { DaySheetLine, DaySheetView } from '../../domain/views/view-shapes.ts'
import { lineTarget } from '../parts/car/line-target.ts'
import type { ClockWork } from '../parts/clock/use-clock.tsx'

/** The person's clock runs on this very gate or task. */
export function isClockOn({ clock }: DaySheetView, line: DaySheetLine): boolean {
  if (clock?.on.kind !== 'work') return false
  return clock.on.targets.some((target) =>
    target.kind === 'gate'
      ? target.repairId === line.repairId && target.gate === line.gate
      : target.taskId === line.taskId,
  )
}

/** The line that the running clock is about, also where its repair has come to a later gate since; null for none. */
export function clockedLine(view: DaySheetView): DaySheetLine | null {
  const { clock, canDo, waits } = view
  if (clock?.on.kind !== 'work') return null
  const lines = [...canDo, ...waits]
  const repairs = new Set(clock.on.targets.map((target) => target.kind === 'gate' && target.repairId))
  return (
    lines.find((line) => isClockOn(view, line)) ??
    lines.find(({ repairId }) => repairId !== null && repairs.has(repairId)) ??
    null
  )
}

/** What a tap on the line clocks in on; null where nothing can be. */
export function lineWork(line: DaySheetLine): ClockWork | null {
  const target = lineTarget(line)
  if (target === null) return null
  return { carId: line.carId, targets: [target], hotWork: line.hotWork, isRework: false }
}

/** Why a line waits: what work on it cannot bring. */
export const waitsFor = ({ holds }: DaySheetLine) =>
  holds.find(({ released, broughtByWork }) => released === null && !broughtByWork)
