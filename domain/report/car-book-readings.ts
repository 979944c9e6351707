import type { RepairState } from '../car.ts'
import type { Gate } from '../gates.ts'
import { steelMarginC } from '../measure/dew-point.ts'
import { asRead } from '../measure/judgement.ts'
import { stampOf } from '../state/fact-stamp.ts'
import { capital, fixed, plural } from '../text/words.ts'
import { FIT_UP_WORDS } from '../views/record-words.ts'
import type { BookLine } from './car-book-shapes.ts'
import { photoNames } from './car-book-photos.ts'
import { type BookTelling, factsOf, momentOf, nameOfStamp } from './car-book-telling.ts'
import { sentence } from './car-book-words.ts'

interface Dated {
  readonly number: number
  readonly line: BookLine
}

/** What was read and checked for a gate of a repair, in the order in which it was written down. */
export function readingLines(telling: BookTelling, repair: RepairState, gate: Gate): readonly BookLine[] {
  return [
    ...conditionLines(telling, repair, gate),
    ...(gate === 'sealed' ? drainLines(telling, repair) : []),
    ...(gate === 'trial-fitted' ? fitUpLines(telling, repair) : []),
    ...(gate === 'welded' ? weldLines(telling, repair) : []),
    ...preparedLines(telling, repair, gate),
  ]
    .toSorted((a, b) => a.number - b.number)
    .map(({ line }) => line)
}

function conditionLines(telling: BookTelling, repair: RepairState, gate: Gate): readonly Dated[] {
  return telling.car.conditions
    .filter((each) => each.gate === gate && each.repairIds.includes(repair.id))
    .map((reading) => {
      const { airC, humidityPercent, steelC, stamp } = reading
      const margin = steelMarginC(reading)
      const dew = margin.ok
        ? `; dew point ${fixed(steelC - margin.value, 1)} °C, steel ${fixed(Math.abs(margin.value), 1)} °C ${margin.value < 0 ? 'below' : 'above'} it`
        : ''
      return dated(
        telling,
        stamp,
        `Air ${fixed(airC, 1)} °C, relative humidity ${fixed(humidityPercent, 0)} %, steel ${fixed(steelC, 1)} °C${dew}.`,
      )
    })
}

function drainLines(telling: BookTelling, repair: RepairState): readonly Dated[] {
  return factsOf(telling, 'drainsChecked')
    .filter(({ payload }) => payload.repairIds.includes(repair.id))
    .map((fact) =>
      dated(telling, stampOf(fact), `Every drain path was open. ${sentence(fact.payload.note)}`.trim()),
    )
}

function weldLines(telling: BookTelling, { welds, plan }: RepairState): readonly Dated[] {
  return welds.map((count) => {
    const joints = count.welds.flatMap(({ jointId, done }) => {
      const joint = plan.welds.find((each) => each.jointId === jointId)
      if (joint === undefined) return []
      const planned = asRead(joint.planned)
      return [
        joint.kind === 'seam'
          ? `${joint.name}: ${asRead(done)} mm of seam of ${planned} mm planned`
          : `${joint.name}: ${plural(joint.kind, done)} of ${planned} planned`,
      ]
    })
    return dated(telling, count.stamp, `Welds counted. ${sentence(joints.join('; '))}`.trim())
  })
}

/** Fit-ups of the groups that the repair belongs to; their gaps stand in the chapter on the shell. */
function fitUpLines(telling: BookTelling, { id }: RepairState): readonly Dated[] {
  return [...telling.car.fitGroups.values()]
    .filter(({ plan }) => plan.members.includes(id))
    .flatMap(({ plan, fitUps }) =>
      fitUps.map(({ kind, good, note, stamp }) =>
        dated(
          telling,
          stamp,
          `${plan.name}: ${FIT_UP_WORDS[kind]} ${good ? 'good' : 'not good'}. ${sentence(note)}`.trim(),
        ),
      ),
    )
}

function preparedLines(telling: BookTelling, repair: RepairState, gate: Gate): readonly Dated[] {
  return factsOf(telling, 'surfacePrepared')
    .filter(({ payload }) => payload.repairId === repair.id && payload.gate === gate)
    .map((fact) => {
      const shown = photoNames(telling.photos, [fact.payload.attachmentId])
      return dated(
        telling,
        stampOf(fact),
        `Surface cleaned or abraded again${shown === '' ? '' : `, ${shown.toLowerCase()}`}.`,
      )
    })
}

function dated(telling: BookTelling, stamp: ReturnType<typeof stampOf>, text: string): Dated {
  return {
    number: stamp.number,
    line: {
      lead: momentOf(telling, stamp.happened),
      text: `${capital(text)} Stated by ${nameOfStamp(telling, stamp)}.`,
    },
  }
}
