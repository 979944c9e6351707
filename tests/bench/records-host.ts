/*
 * Run by the bench of records as a process of its own: times every view and every command of a host on one data folder, and
 * says so as one line of JSON. Arguments: the folder, which is gone afterwards, and how many years it holds.
 */
import process from 'node:process'
import {
  attachmentIdSchema,
  entryIdSchema,
  lineIdSchema,
  readingIdSchema,
  type CarId,
  type PersonId,
} from '../../domain/ids.ts'
import { addDays } from '../../domain/time/local-date.ts'
import type { ActAnswer } from '../../electron/api/act-procedures.ts'
import { createStateCache } from '../../db/state-cache.ts'
import { createTestHost, type TestHost, type TestScreen } from '../support/host.ts'
import { manager } from '../support/workshop.ts'
import { residentMb } from './memory.ts'
import { type Question, questions } from './records-views.ts'
import { type StoryTimes, storyTimes } from './records-story.ts'
import { digestOf, momentOn, type TenYearsCar } from './ten-years-car.ts'
import { type Filled, LAST_MORNING, yearsFilled } from './ten-years.ts'
import { type Spread, spreadOf, timed, type Timed } from './timing.ts'

const WARM_UP = 6
const ROUNDS = 40
const COLD_ROUNDS = 3
const SECONDS_BETWEEN = 20

export interface HostTimes {
  readonly views: Readonly<Record<string, ViewTimes>>
  readonly commands: Readonly<Record<string, Spread>>
  /** Null when only some views are asked for. */
  readonly story: StoryTimes | null
  readonly residentMb: number
}

export interface ViewTimes {
  readonly warm: Spread
  /** Of a car in work, which is in memory; the same as `warm` where no car is asked for. */
  readonly kept: Spread
  /** Of a car that is folded for it; null where no car is asked for. */
  readonly folded: Spread | null
  /** Nothing folded and nothing read yet, as after the host's start. */
  readonly cold: Spread
}

const [dataDir = '', years = '1', only = ''] = process.argv.slice(2)
console.log(JSON.stringify(await timesOf(dataDir, Number(years))))

async function timesOf(folder: string, count: number): Promise<HostTimes> {
  const host = await createTestHost({ dataDir: folder, setUp: false, now: momentOn(LAST_MORNING, 10) })
  try {
    const screen = await host.openScreen()
    const views: Record<string, ViewTimes> = {}
    for (const question of questions)
      if (only === '' || only.split(',').includes(question.query)) {
        // A session ends after half an hour of the clock that goes on between calls.
        await screen.signIn(manager)
        views[question.name] = await viewTimes(host, screen, question, yearsFilled(count))
      }
    if (host.log.length > 0) throw new Error(`The host logged: ${host.log.join('; ')}`)
    const areCommandsSent = only === '' || only === 'commands'
    const commands = areCommandsSent ? await commandTimes(host, screen, yearsFilled(count)) : {}
    const story = areCommandsSent ? storyTimes(host.workshop) : null
    return { views, commands, story, residentMb: residentMb() }
  } finally {
    await host.close()
  }
}

async function viewTimes(
  { workshop }: TestHost,
  { client, signIn }: TestScreen,
  { query, input }: Question,
  filled: Filled,
): Promise<ViewTimes> {
  const asker = client as unknown as Record<string, { query: (input: unknown) => Promise<unknown> }>
  const { cache } = workshop.db
  const carOf = (round: number) => (input(filled, round) as { readonly carId?: CarId | null } | null)?.carId
  const call = (round: number): Promise<Timed> => {
    workshop.pass({ minutes: SECONDS_BETWEEN / 60 })
    const asked = input(filled, round)
    return timed(() => asker[query]?.query(asked))
  }
  const cold: Timed[] = []
  for (let round = 0; round < COLD_ROUNDS; round += 1) {
    Object.assign(workshop.db.cache, createStateCache())
    cold.push(await call(round))
  }
  const warm: Timed[] = []
  for (let round = 0; round < WARM_UP + ROUNDS; round += 1) {
    const took = await call(round)
    if (round >= WARM_UP) warm.push(took)
  }
  if (!carOf(0)) return { warm: spreadOf(warm), kept: spreadOf(warm), folded: null, cold: spreadOf(cold) }
  await signIn(manager)
  const [kept, folded]: [Timed[], Timed[]] = [[], []]
  for (let round = 0; round < ROUNDS; round += 2) {
    // Even rounds ask for cars in work.
    await call(round)
    kept.push(await call(round))
    cache.cars.delete(carOf(round + 1) as CarId)
    folded.push(await call(round + 1))
  }
  return { warm: spreadOf(warm), kept: spreadOf(kept), folded: spreadOf(folded), cold: spreadOf(cold) }
}

/** Commands of the shop floor and of the office that are sent all day, on cars in work. */
async function commandTimes(
  { workshop }: TestHost,
  { send, signIn }: TestScreen,
  { inWork, people }: Filled,
): Promise<Readonly<Record<string, Spread>>> {
  let sent = 0
  // The set-up of the workshop has taken the usual ones.
  const nextId = () => `bench-command-${(sent += 1)}`
  const logTime =
    (daysBack: number) =>
    (round: number, { carId, targets }: TenYearsCar): Promise<ActAnswer> =>
      send(
        'logTime',
        {
          entryId: entryIdSchema.parse(`bench-entry-${daysBack}-${round}`),
          personId: people[round % people.length] as PersonId,
          on: { kind: 'work', targets: [targets.at(-1) as (typeof targets)[number]] },
          hotWork: false,
          cause: null,
          time: { kind: 'day', date: addDays(LAST_MORNING, -daysBack - (round % 5)), hours: 0.25 },
          shares: null,
          note: '',
        },
        { carId, id: nextId() },
      )
  const commands: Readonly<Record<string, (round: number, car: TenYearsCar) => Promise<ActAnswer>>> = {
    addNote: (round, { carId }) => send('addNote', { text: `Note ${round}` }, { carId, id: nextId() }),
    logTime: logTime(1),
    // Whose other hours of those days are on cars that rest by now.
    'logTime half a year back': logTime(200),
    attachPhoto: (round, { carId, index }) =>
      send(
        'attachPhoto',
        {
          attachmentId: attachmentIdSchema.parse(`bench-photo-${round}`),
          sha256: digestOf(index, 0),
          taken: null,
          caption: '',
          serves: [{ what: 'car' }],
        },
        { carId, id: nextId() },
      ),
    readConditions: (round, { carId, repairs }) =>
      send(
        'readConditions',
        {
          readingId: readingIdSchema.parse(`bench-reading-${round}`),
          repairIds: [repairs.at(-1) as (typeof repairs)[number]],
          gate: 'painted',
          airC: 19,
          humidityPercent: 55,
          steelC: 18,
        },
        { carId, id: nextId() },
      ),
    setEstimate: (round, { carId, visitId, targets, index }) =>
      send(
        'setEstimate',
        {
          visitId,
          lines: [
            {
              lineId: lineIdSchema.parse(`line-${index}-${targets.length - 1}`),
              target: targets.at(-1) as (typeof targets)[number],
              hours: { shortest: 1, likely: 2 + round / 100, longest: 6 },
              agreed: 2 + round / 100,
              payer: 'owner',
            },
          ],
        },
        { carId, id: nextId() },
      ),
  }
  const times: Record<string, Spread> = {}
  for (const [kind, command] of Object.entries(commands)) {
    await signIn(manager)
    const took: Timed[] = []
    for (let round = 0; round < WARM_UP + ROUNDS; round += 1) {
      workshop.pass({ minutes: SECONDS_BETWEEN / 60 })
      const car = inWork[round % inWork.length] as TenYearsCar
      const time = await timed(async () => {
        const answer = await command(round, car)
        if (!answer.ok) throw new Error(`${kind} was refused: ${answer.refusal.message}`)
      })
      if (round >= WARM_UP) took.push(time)
    }
    times[kind] = spreadOf(took)
  }
  return times
}
