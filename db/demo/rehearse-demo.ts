import type { Moment } from '../../domain/car.ts'
import { usualSkills, usualWeek } from '../../domain/usual-workshop.ts'
import { createAgenda } from './agenda.ts'
import { demoCars } from './demo-cars.ts'
import { demoPeople, demoWorkshop, type DemoPerson } from './demo-people.ts'
import { planDay, type Floor } from './floor.ts'
import { createJobBook } from './job-book.ts'
import { leaveClockRunning, tellLastMorning, type Morning } from './last-morning.ts'
import { openOffice } from './office.ts'
import { createStage, type DemoScript, type Stage } from './stage.ts'
import { isSweeper, LEAVE_CARS_AT, planWorkshopTime } from './workshop-time.ts'
import { createWorkDays, type WorkDays } from './work-days.ts'

export interface DemoWish {
  /** Local date that the demo is filled up to, YYYY-MM-DD. */
  readonly today: string
  /** Nothing in the demo lies after this. */
  readonly until: Moment
  readonly seed: string
}

/** Working days before the last one: about eight months. */
const FIRST_DAY = -166

/** Plays eight months of the demo workshop in memory and writes down every command, all of them accepted. */
export function rehearseDemo({ today, until, seed }: DemoWish): DemoScript {
  const days = createWorkDays(today, demoWorkshop.zone)
  const stage = createStage({ seed, zone: demoWorkshop.zone, start: days.at(FIRST_DAY, '07:30') })
  try {
    setUpWorkshop(stage, days)
    const agenda = createAgenda()
    const floor: Floor = { stage, agenda, days, jobs: createJobBook(stage, demoCars), failed: [] }
    for (let day = FIRST_DAY; day < 0; day += 1)
      agenda.add(days.at(day, '07:50'), () => {
        openOffice(floor, demoCars, day)
        planDay(floor, day, (person) => {
          if (day === -1 && person === demoPeople.bram) return '12:30'
          return isSweeper(floor, person, day) ? LEAVE_CARS_AT : '16:30'
        })
        planWorkshopTime(floor, day)
      })
    agenda.add(days.at(-1, '13:05'), () => leaveClockRunning(floor))
    const morning = lastMorning(days, { today, until })
    agenda.add(morning.start, () => openOffice(floor, demoCars, 0))
    tellLastMorning(floor, morning)
    agenda.run(morning.end, stage.setClock)
    return stage.written()
  } finally {
    stage.close()
  }
}

const EARLIEST = '00:05'
const LATEST = '16:20'
/** Somebody who fills the demo before breakfast finds people at work all the same. */
const LEAST_MORNING_MS = 150 * 60_000

/** On a day off the demo ends in the afternoon of the last working day. */
function lastMorning(days: WorkDays, { today, until }: Pick<DemoWish, 'today' | 'until'>): Morning {
  const latest = days.at(0, LATEST)
  const wanted = days.date(0) === today ? Math.min(until, latest) : latest
  const end = Math.max(wanted - (wanted % 60_000), days.at(0, EARLIEST) + 60_000)
  const start = Math.min(days.at(0, '08:00'), Math.max(days.at(0, EARLIEST), end - LEAST_MORNING_MS))
  return { start, end }
}

function setUpWorkshop(stage: Stage, days: WorkDays): void {
  const { maren, ...others } = demoPeople
  stage.send('setUpWorkshop', null, null, {
    ...demoWorkshop,
    managerId: maren.id,
    manager: contactOf(maren),
    code: maren.code,
    skills: [...usualSkills],
    withCatalogue: true,
  })
  stage.send('setCalendar', null, maren.id, { week: usualWeek, holidays: [...days.holidays] })
  stage.send('changePerson', null, maren.id, {
    ...personOf(maren, days),
    active: true,
    contact: contactOf(maren),
  })
  for (const person of Object.values(others))
    stage.send('addPerson', null, maren.id, {
      ...personOf(person, days),
      contact: contactOf(person),
      code: person.code,
    })
}

const contactOf = ({ name }: DemoPerson) => ({ name, phone: '', email: '' as const, address: '' })

const personOf = ({ id, roles, skills, off }: DemoPerson, days: WorkDays) => ({
  personId: id,
  roles: [...roles],
  skills: [...skills],
  week: null,
  absences: off.map(([from, to]) => ({ from: days.date(from), to: days.date(to) })),
})
