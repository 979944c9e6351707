import type { Moment } from '../../domain/car.ts'
import { entryIdSchema, type EntryId } from '../../domain/ids.ts'
import { MS_PER_HOUR } from '../../domain/time/zone.ts'
import { carOf, fitGroupIdOf, repairOf, send, takePhoto, type Act } from './act.ts'
import type { Agenda } from './agenda.ts'
import type { DemoCar, DemoGroup } from './demo-car.ts'
import { floorPeople, type DemoPerson } from './demo-people.ts'
import { bringEvidence, groupsToFit, recordFitUp, takePhotoBefore } from './gate-evidence.ts'
import { isOffOn, type JobBook } from './job-book.ts'
import { jobTargets, type Job, type JobWork } from './job.ts'
import type { DemoPhotoKind } from './photos/scenes.ts'
import type { Stage } from './stage.ts'
import type { WorkDays } from './work-days.ts'

export interface Floor {
  readonly stage: Stage
  readonly agenda: Agenda
  readonly days: WorkDays
  readonly jobs: JobBook
  /** Fit-ups that were not good, for the manager. */
  readonly failed: { readonly demo: DemoCar; readonly group: DemoGroup }[]
}

/** Puts a day's work of everybody on the floor on the agenda; `goHome` gives the local time that each stays until. */
export function planDay(floor: Floor, day: number, goHome: (person: DemoPerson) => string): void {
  const { agenda, days, stage } = floor
  for (const person of floorPeople.filter((each) => !isOffOn(each, day))) {
    const end = days.at(day, goHome(person))
    const come = days.at(day, '08:00') + minutes(stage.random.between(0, 12))
    agenda.add(come, () => turn(floor, { person, day, end }))
  }
}

interface Shift {
  readonly person: DemoPerson
  readonly day: number
  readonly end: Moment
}

const MINUTE = 60_000
const minutes = (count: number): number => Math.round(count) * MINUTE

/** Shorter stretches are not begun. */
const LEAST_MS = 20 * MINUTE
const IDLE_MS = 40 * MINUTE
/** Spare work is left again before long, for what has become pressing. */
const SPARE_MS = 100 * MINUTE
/** The hour's watch after it must end before people go home. */
const LAST_HOT_END = '15:20'
const WORKDAY_MS = 8.5 * MS_PER_HOUR

/** The person is free now: what do they do next? */
function turn(floor: Floor, shift: Shift): void {
  const { stage, agenda, days, jobs } = floor
  const { person, day, end } = shift
  const now = stage.now()
  const lunch = days.at(day, '12:30')
  const afternoon = days.at(day, '13:00')
  const turnAt = (at: Moment) => agenda.add(at, () => turn(floor, shift))
  if (now > lunch - LEAST_MS && now < afternoon)
    return turnAt(afternoon + minutes(stage.random.between(0, 6)))
  const stretchEnd = Math.min(end, now < lunch ? lunch : days.at(day, '16:25'))
  if (stretchEnd - now < LEAST_MS) return
  const hotEnd = Math.min(stretchEnd, days.at(day, LAST_HOT_END))
  const share = Math.min(1, (now - days.at(day, '08:00')) / WORKDAY_MS)
  const job = jobs.choose(person, { day, share, mayWorkHot: hotEnd - now >= LEAST_MS })
  if (!job) return turnAt(now + IDLE_MS)
  const wanted = minutes(Math.max(LEAST_MS / MINUTE, (60 * job.left) / (job.busy + 1)))
  const most = job.isSpare ? SPARE_MS : wanted
  const stop = Math.min(now + Math.min(wanted, most), job.hot ? hotEnd : stretchEnd)
  const entryId = clockOn(floor, person, job)
  agenda.add(stop, () => {
    clockOff(floor, person, job, { entryId, hours: (stop - now) / MS_PER_HOUR })
    turnAt(stage.now() + minutes(stage.random.between(2, 8)))
  })
}

const actOf = (floor: Floor, person: DemoPerson, { demo }: Pick<Job, 'demo'>): Act => ({
  stage: floor.stage,
  demo,
  by: person.id,
})

function clockOn(floor: Floor, person: DemoPerson, job: Job): EntryId {
  const act = actOf(floor, person, job)
  if (job.work.kind === 'gate' && job.did.length === 0)
    takePhotoBefore(act, job.work.repairIds[0], job.work.gate)
  const entryId = entryIdSchema.parse(floor.stage.id('entry'))
  send(act, 'startClock', {
    entryId,
    personId: person.id,
    on: { kind: 'work', targets: [...jobTargets(job)] },
    hotWork: job.hot,
    cause: null,
  })
  job.busy += 1
  if (!job.did.includes(person.id)) job.did.push(person.id)
  return entryId
}

interface Clocked {
  readonly entryId: EntryId
  readonly hours: number
}

function clockOff(floor: Floor, person: DemoPerson, job: Job, { entryId, hours }: Clocked): void {
  const act = actOf(floor, person, job)
  job.busy -= 1
  floor.jobs.spend(job, hours)
  const failing = isComplete(job) ? failingGroup(act, job) : null
  if (isComplete(job) && failing === null) bringWhatIsAsked(act, job)
  if (failing !== null) recordFitUp(act, failing.state, 'full', { off: 2.5, note: failing.fails.note })
  send(act, 'stopClock', { entryId, overtime: false, shares: null })
  if (job.hot) watch(floor, person, job, entryId)
  if (failing !== null) {
    floor.jobs.close(job)
    floor.failed.push({ demo: job.demo, group: failing.group })
  } else if (isComplete(job)) sign(floor, person, job)
}

const isComplete = ({ left, busy, isLeftBegun }: Job): boolean => left === 0 && busy === 0 && !isLeftBegun

function bringWhatIsAsked(act: Act, { work }: Job): void {
  if (work.kind === 'task') takeTaskPhotos(act, work)
  else bringEvidence(act, work.repairIds, work.gate)
}

/** The group of this fit-up whose first one is to fail and has not been tried yet. */
function failingGroup(act: Act, { work, demo }: Job) {
  if (work.kind !== 'gate' || work.gate !== 'trial-fitted') return null
  for (const state of groupsToFit(act, work.repairIds)) {
    const group = demo.groups.find(({ key }) => fitGroupIdOf(demo, key) === state.id)
    if (group?.firstFails && state.fitUps.length === 0) return { group, state, fails: group.firstFails }
  }
  return null
}

const TASK_PHOTOS: Readonly<Record<string, readonly [DemoPhotoKind, string]>> = {
  strip: ['surface rust', 'Stripped'],
  paint: ['body colour', 'Painted'],
  refit: ['panel gap', 'Doors hung and set'],
}

function takeTaskPhotos(act: Act, { taskId, key }: Extract<JobWork, { kind: 'task' }>): void {
  const task = carOf(act).tasks.get(taskId)
  const [kind, caption] = TASK_PHOTOS[key] ?? ['bare steel', 'Done']
  for (let count = 0; count < (task?.plan.photos ?? 0); count += 1)
    takePhoto(act, {
      kind,
      caption,
      slate: task?.plan.name ?? '',
      serves: [{ what: 'task', taskId }],
    })
}

/** An hour later somebody looks for smoulder; only then is the hot work signed for. */
function watch(floor: Floor, person: DemoPerson, job: Job, entryId: EntryId): void {
  const { stage, agenda } = floor
  const lasts = minutes(stage.workshop().settings.watchMinutes + stage.random.between(1, 4))
  job.watches += 1
  agenda.add(stage.now() + lasts, () => {
    send(actOf(floor, person, job), 'completeWatch', { entryId, note: '' })
    job.watches -= 1
    if (isComplete(job)) sign(floor, person, job)
  })
}

function sign(floor: Floor, person: DemoPerson, job: Job): void {
  if (job.watches > 0) return
  const act = actOf(floor, person, job)
  if (job.work.kind === 'task')
    send(act, 'signTask', { taskId: job.work.taskId, did: [...job.did], note: '' })
  else signGate(act, job, job.work)
  floor.jobs.close(job)
}

function signGate(act: Act, job: Job, { gate, repairIds }: Extract<JobWork, { kind: 'gate' }>): void {
  const { outer } = repairOf(act, repairIds[0]).plan
  send(act, 'passGate', {
    repairIds: [...repairIds],
    gate,
    did: [...job.did],
    coat: gate === 'painted' ? (outer ? 'temporary' : 'protective') : null,
    note: '',
  })
  for (const part of carOf(act).parts.values())
    if (part.gate === gate && part.state === 'checked' && repairIds.includes(part.repairId))
      send(act, 'movePart', { partId: part.id, state: 'fitted', expected: null, reason: '' })
}
