import type { PartId } from '../../domain/ids.ts'
import { isDone } from '../../domain/rules/standing.ts'
import { carOf, demoRepairOf, send, type Act } from './act.ts'
import type { Floor } from './floor.ts'

/** Working days that a part takes to come. */
const DAYS_TO_COME = 6
/** When a part that does not come was promised for the second time. */
const LATE_EXPECTED = -5
const MINUTES_TO_CHECK = 95

/** Orders what is needed once a repair is assessed, and takes in what comes today. */
export function seeToParts(floor: Floor, act: Act, day: number): void {
  const { days } = floor
  const car = carOf(act)
  for (const { id, repairId, state, expected, reason } of car.parts.values()) {
    const repair = car.repairs.get(repairId)
    const story = demoRepairOf(act.demo, repairId).parts
    if (!repair || !isDone(repair, 'assessed')) continue
    if (state === 'needed') order(act, id, days.date(day + DAYS_TO_COME))
    else if (state === 'rejected')
      order(act, id, days.date(day + DAYS_TO_COME), 'Ordered again, with a drawing.')
    else if (state === 'ordered' && story === 'late' && expected === days.date(day) && day < LATE_EXPECTED)
      order(act, id, days.date(LATE_EXPECTED), "The supplier's press is down; promised anew.")
    else if (state === 'ordered' && story !== 'late' && expected === days.date(day))
      takeIn(floor, act, id, story === 'rejected once' && reason === '')
  }
}

const order = (act: Act, partId: PartId, expected: string, reason = ''): void => {
  send(act, 'movePart', { partId, state: 'ordered', expected, reason })
}

/** It comes in the morning and is looked at before noon. */
function takeIn({ agenda, stage }: Floor, act: Act, partId: PartId, isWrong: boolean): void {
  send(act, 'movePart', { partId, state: 'received', expected: null, reason: '' })
  agenda.add(stage.now() + MINUTES_TO_CHECK * 60_000, () => {
    const reason = isWrong ? 'For the other side: the flange runs the wrong way.' : ''
    send(act, 'movePart', { partId, state: isWrong ? 'rejected' : 'checked', expected: null, reason })
  })
}
