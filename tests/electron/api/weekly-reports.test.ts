import { beforeEach, describe, expect, test } from 'vitest'
import { commandIdSchema, reportIdSchema } from '../../../domain/ids.ts'
import { usualReports } from '../../../domain/usual-workshop.ts'
import { createTestHost, type TestHost, type TestScreen } from '../../support/host.ts'
import { manager } from '../../support/workshop.ts'

const WEEK = '2026-W48'
const fridays = { ...usualReports, weekly: { weekday: 5, time: '16:00' } }

/** Cars in the order in which their reports were printed. */
let printed: string[]
let host: TestHost
let screen: TestScreen
beforeEach(async () => {
  printed = []
  host = await createTestHost({
    printReport: async ({ title, week }) => {
      printed.push(`${title}, ${week}`)
      if (title.startsWith('Teasel')) throw new Error('The report could not be printed: the worker ended.')
      return new TextEncoder().encode('%PDF-1.7')
    },
  })
  screen = await host.openScreen()
  await screen.signIn(manager)
  host.workshop.addCar('Larkspur 4', 'R-1')
  host.workshop.addCar('Teasel', 'R-2')
  return () => host.close()
})

const at = async (time: string) => {
  host.workshop.now = Date.parse(time)
  await host.tick()
}
const prepared = async (week = WEEK) =>
  (await screen.client.ownerReports.query({ week })).reports.map((line) => line.prepared)

describe('reports that are prepared by themselves', () => {
  test('are built and printed at the set hour, once, and issued to nobody', async () => {
    await screen.run('setReports', fridays)
    await at('2026-11-27T15:59:00+01:00')
    expect(printed).toEqual([])
    await at('2026-11-27T16:00:00+01:00')
    const now = host.workshop.now
    expect(printed).toEqual(['Larkspur 4, shell R-1, 2026-W48', 'Teasel, shell R-2, 2026-W48'])
    expect(await prepared()).toEqual([
      { at: now, problems: [] },
      {
        at: now,
        problems: [
          'The report could not be printed: the worker ended. If it stays so, report what the window says that Panelwright was started in.',
        ],
      },
    ])
    await at('2026-11-27T16:01:00+01:00')
    await at('2026-12-04T15:59:00+01:00')
    expect(printed).toHaveLength(2)
    const [line] = (await screen.client.ownerReports.query({ week: WEEK })).reports
    expect(line?.issued).toEqual([])
  })

  test('are not prepared while nothing is set, nor for an hour before it was set', async () => {
    await at('2026-11-27T17:00:00+01:00')
    await screen.signIn(manager)
    await screen.run('setReports', fridays)
    await host.tick()
    expect(printed).toEqual([])
  })

  test('are caught up with after two weeks in which nobody looked at the clock: the latest week alone', async () => {
    await screen.run('setReports', fridays)
    await at('2026-12-07T08:00:00+01:00')
    expect(printed).toEqual(['Larkspur 4, shell R-1, 2026-W49', 'Teasel, shell R-2, 2026-W49'])
    expect(await prepared('2026-W48')).toEqual([null, null])
    expect((await prepared('2026-W49'))[0]).toEqual({ at: host.workshop.now, problems: [] })
    await host.tick()
    expect(printed).toHaveLength(2)
  })

  test.each([
    ['spring', '2027-03-26T15:59:00+01:00', '2027-04-02T15:59:59+02:00', '2027-04-02T16:00:00+02:00'],
    ['autumn', '2027-10-29T15:59:00+02:00', '2027-11-05T15:59:59+01:00', '2027-11-05T16:00:00+01:00'],
  ])(
    'come at the same hour of the wall clock after the clocks change in %s',
    async (_when, set, before, after) => {
      host.workshop.now = Date.parse(set)
      await screen.signIn(manager)
      await screen.run('setReports', fridays)
      await at(set.replace('15:59', '16:00'))
      expect(printed).toHaveLength(2)
      await at(before)
      expect(printed).toHaveLength(2)
      await at(after)
      expect(printed).toHaveLength(4)
    },
  )

  test('leave out what was issued already', async () => {
    await screen.run('setReports', fridays)
    const [line] = (await screen.client.ownerReports.query({ week: WEEK })).reports
    await screen.client.issueReport.mutate({
      visitId: line!.visitId,
      week: WEEK,
      choices: line!.start,
      reportId: reportIdSchema.parse('report-one'),
      commandId: commandIdSchema.parse('command-issue'),
    })
    printed = []
    await at('2026-11-27T16:00:00+01:00')
    expect(printed).toEqual(['Teasel, shell R-2, 2026-W48'])
  })
})
