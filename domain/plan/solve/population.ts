import type { Choices } from './choices.ts'
import type { Random } from './random.ts'
import { compareScores } from './score.ts'

/** A schedule as the search keeps it: how the next one is made from it, and how good it is. */
export interface Member {
  /** As the next generation takes the work up, with keys rising along it. */
  readonly order: Int32Array
  readonly keys: Float64Array
  readonly choices: Choices
  readonly score: Float64Array
  /** Of its starts: members with different ones are different schedules. */
  readonly fingerprint: number
}

export function fingerprintOf(starts: Int32Array): number {
  let mixed = 0
  for (let activity = 0; activity < starts.length; activity += 1)
    mixed = (Math.imul(mixed, 31) + (starts[activity] as number)) | 0
  return mixed
}

/** The better of two that are drawn. */
export function tournament(members: readonly Member[], random: Random): Member {
  const one = members[random.below(members.length)] as Member
  const other = members[random.below(members.length)] as Member
  return compareScores(other.score, one.score) < 0 ? other : one
}

/** Takes out the worst until `count` are left. */
export function keepBest(members: Member[], count: number): void {
  while (members.length > count) {
    let worst = 0
    members.forEach(({ score }, at) => {
      if (compareScores(score, (members[worst] as Member).score) > 0) worst = at
    })
    members.splice(worst, 1)
  }
}
