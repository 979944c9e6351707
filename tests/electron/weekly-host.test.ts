import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { openDatabase } from '../../db/open-database.ts'
import { readPrepared, type PreparedReport } from '../../db/reports-in-preparation.ts'
import { visitIdSchema } from '../../domain/ids.ts'
import { usualReports } from '../../domain/usual-workshop.ts'
import { startHost } from '../../electron/host.ts'
import { PLAIN_HOST } from '../support/plain-host.ts'
import { createWorkshop, type Workshop } from '../support/workshop.ts'

const visitId = visitIdSchema.parse('visit-r-1')
const closes: (() => Promise<void>)[] = []
let workshop: Workshop

/** A folder in which Friday 16:00 was set on the Monday before, and that nobody has open. */
beforeEach(() => {
  workshop = createWorkshop({ keptIn: 'folder' })
  workshop.addCar('Larkspur 4', 'R-1')
  workshop.run('setReports', { ...usualReports, weekly: { weekday: 5, time: '16:00' } })
  workshop.db.close()
})
afterEach(async () => {
  for (const close of closes.splice(0)) await close()
  workshop.close()
})

const start = async (clock: () => number) => {
  const host = await startHost({
    dataDir: workshop.dataDir ?? '',
    ...PLAIN_HOST,
    clock,
    tickMs: 10,
    log: (line) => {
      throw new Error(line)
    },
  })
  closes.push(host.close)
  return host
}

/** Read beside the host, on a connection of its own. */
const prepared = (week: string): PreparedReport | null => {
  const db = openDatabase(workshop.dataDir ?? '', { readonly: true })
  try {
    return readPrepared(db, visitId, week)
  } finally {
    db.close()
  }
}

describe('a host with a set hour', () => {
  test('prepares at that hour, and at its start what it missed while it was off: the latest week alone', async () => {
    let now = Date.parse('2026-11-27T15:59:59+01:00')
    const host = await start(() => now)
    expect(prepared('2026-W48')).toBeNull()
    now = Date.parse('2026-11-27T16:00:00+01:00')
    await vi.waitFor(() => expect(prepared('2026-W48')).not.toBeNull(), 20_000)
    expect(prepared('2026-W48')).toMatchObject({ preparedAt: now, problems: [] })
    closes.splice(0)
    await host.close()

    now = Date.parse('2026-12-14T08:00:00+01:00')
    await start(() => now)
    await vi.waitFor(() => expect(prepared('2026-W50')).not.toBeNull(), 20_000)
    expect(prepared('2026-W50')).toMatchObject({ preparedAt: now, problems: [] })
    expect(prepared('2026-W49')).toBeNull()
  })
})
