import type { RepairState } from '../car.ts'
import type { Fact } from '../facts.ts'
import { GATES, type Gate } from '../gates.ts'
import type { Refusal } from '../refusal.ts'
import type { CarFileWorkshop } from '../report/car-file-shapes.ts'
import type { FileChoices } from '../report/file-choices.ts'
import { activeRepairs, isFinished } from '../rules/standing.ts'
import { carFromFacts } from '../state/car-state.ts'
import { localDateOf } from '../time/zone.ts'
import { LEFT_OUT } from './left-out.ts'
import type { TakenOver } from './take-over.ts'

/** What a car's file holds, before it is brought in. Its chain and all of its files are verified by then. */
export interface BringInPreview {
  readonly name: string
  readonly shellNumber: string
  readonly from: string
  /** Local date on which the file was written. */
  readonly written: string
  /** Local dates of the first and last thing that was recorded there. */
  readonly firstDay: string
  readonly lastDay: string
  readonly lines: number
  readonly repairs: number
  readonly finishedRepairs: number
  /** Of the repairs that stand: what was voided or reopened there counts no more. */
  readonly gatesPassed: number
  readonly photos: number
  /** What the other workshop kept back, and how many lines that leaves without their content. */
  readonly withheld: readonly (keyof FileChoices)[]
  readonly withheldLines: number
  readonly leftOut: readonly { readonly why: string; readonly lines: number }[]
  /** Why it cannot come in; `needsNumber` when another shell number is all that is missing. */
  readonly refusal: Refusal | null
  readonly needsNumber: boolean
}

export interface PreviewInput {
  readonly file: CarFileWorkshop
  /** As they came; the first one is the car. */
  readonly facts: readonly Fact[]
  readonly taken: TakenOver
  readonly lines: number
  readonly withheldLines: number
  readonly refusal: Refusal | null
  readonly needsNumber: boolean
}

/** What the person who brings a car in decides by; nothing is recorded. Days are of the other workshop's zone. */
export function bringInPreview({ file, facts, taken, ...rest }: PreviewInput): BringInPreview {
  const { zone, name: from } = file.workshop
  const car = carFromFacts(taken.facts)
  const repairs = car === null ? [] : activeRepairs(car)
  const happened = facts.map((each) => Date.parse(each.happened))
  const day = (moment: number) => localDateOf(moment, zone)
  return {
    ...rest,
    name: car?.name ?? file.car.name,
    shellNumber: car?.shellNumber ?? file.car.shellNumber,
    from,
    written: day(Date.parse(file.written)),
    firstDay: day(Math.min(...happened)),
    lastDay: day(Math.max(...happened)),
    repairs: repairs.length,
    finishedRepairs: repairs.filter(isFinished).length,
    gatesPassed: repairs.reduce((sum, { gates }) => sum + GATES.filter(isPassedIn(gates)).length, 0),
    photos: car?.attachments.size ?? 0,
    withheld: (['contacts', 'prices', 'hours'] as const).filter((choice) => !file.choices[choice]),
    leftOut: [...new Set(Object.values(LEFT_OUT))].flatMap((why) => {
      const lines = taken.leftOut.get(why)
      return lines === undefined ? [] : [{ why, lines }]
    }),
  }
}

const isPassedIn =
  (gates: RepairState['gates']) =>
  (gate: Gate): boolean =>
    gates[gate].status === 'passed'
