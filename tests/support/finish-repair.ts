import { readAllCars } from '../../db/reads.ts'
import { GATES } from '../../domain/gates.ts'
import { entryIdSchema, type CarId, type RepairId } from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import { welder, type Workshop } from './workshop.ts'

const MOST_A_DAY = 20

/** Logs the welder's hours on fabricated, in the summer before and never too many a day; what is open is not needed then. */
export function finishRepair(workshop: Workshop, carId: CarId, repairId: RepairId, hours: number): void {
  for (let left = hours; left > 0; left -= MOST_A_DAY) {
    const logged = readAllCars(workshop.db).reduce((sum, { entries }) => sum + entries.size, 0)
    workshop.run(
      'logTime',
      {
        entryId: entryIdSchema.parse(`entry-${logged}`),
        personId: welder,
        on: { kind: 'work', targets: [{ kind: 'gate', repairId, gate: 'fabricated' }] },
        hotWork: false,
        cause: null,
        time: { kind: 'day', date: addDays('2026-06-01', logged), hours: Math.min(left, MOST_A_DAY) },
        shares: null,
        note: '',
      },
      { carId },
    )
  }
  const gates = workshop.car(carId).repairs.get(repairId)?.gates
  for (const gate of GATES.filter((each) => gates?.[each].status === 'open'))
    workshop.run('markNotNeeded', { repairId, gate, reason: 'Sound.' }, { carId })
}
