import { createHash } from 'node:crypto'
import { type Grade, GRADES } from '../../domain/facts/shapes.ts'
import { repairIdOf, send, type Act } from './act.ts'
import type { DemoRepair } from './demo-car.ts'

/** What shows of a repair before anything is cut. Nobody has looked at what others cover and is not opened within the demo. */
export function gradeOutside(act: Act, repair: DemoRepair): void {
  const isHidden = act.demo.repairs.some(({ covers }) => covers.includes(repair.key))
  if (isHidden && repair.goal === null) return
  const repairId = repairIdOf(act.demo, repair.key)
  send(act, 'gradeOutside', { repairId, grade: outsideGrade(repair, shareOf(repairId)), note: '' })
}

/** The small end of the damage: mostly better than what is found behind it, never sound where work is asked for. */
function outsideGrade({ grades = [] }: DemoRepair, share: number): Grade {
  const worst = Math.max(-1, ...grades.slice(0, -1).map((grade) => GRADES.indexOf(grade as Grade)))
  if (worst === -1) return share < 0.6 ? 'surface' : 'pitted'
  const better = share < 0.25 ? 0 : 1
  return GRADES[Math.max(1, worst - better)] ?? 'surface'
}

/** 0 to 1, always the same for a repair: the stage's own chance must not run otherwise for it. */
const shareOf = (id: string): number => createHash('sha256').update(id).digest().readUInt16BE() / 65_536
