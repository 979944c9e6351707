import type { Context } from 'hono'
import { z } from 'zod'
import { contactBook } from '../../db/contacts.ts'
import { readCar, readWorkshop } from '../../db/reads.ts'
import { bayIdSchema, personIdSchema } from '../../domain/ids.ts'
import { planSheet } from '../../domain/plan/plan-sheet.ts'
import type { PlanOf, PlanTelling } from '../../domain/plan/plan-words.ts'
import type { Plan } from '../../domain/plan/plan.ts'
import { refuse } from '../../domain/refusal.ts'
import { endOfWorkingDay } from '../../domain/time/calendar.ts'
import { personCalendar } from '../../domain/value/person-day.ts'
import { targetWords } from '../../domain/views/work-words.ts'
import type { WorkshopState } from '../../domain/workshop.ts'
import { answerPdf } from './answer-pdf.ts'
import type { ApiDeps } from './deps.ts'
import { refused } from './guard.ts'
import { savedAs } from './saved-as.ts'

const fileSchema = z.string().regex(/^[^/]+\.(?:ics|pdf)$/)

/** `GET /plan/person/ID.pdf`, `/plan/bay/ID.ics`: the plan in force of one person or bay, or else what is proposed. */
export async function servePlan(c: Context, deps: ApiDeps): Promise<Response> {
  const found = findPlan(c, deps)
  if (found === null) return refused(c, 404, unknownPlan)
  const { plan, of, name, takenAt, isCalendar } = found
  const workshop = readWorkshop(deps.db)
  const telling = createTelling(deps, workshop)
  if (isCalendar) {
    const calendar = deps.planCalendar(plan, of, telling, `Plan of ${name}`)
    return calendar === null
      ? refused(c, 404, nothingPlanned)
      : c.body(calendar, 200, savedAs(`Plan ${name}.ics`, 'text/calendar; charset=utf-8'))
  }
  const sheet = planSheet({ plan, of, telling, workshop: workshop.name, name, takenAt, now: deps.now() })
  return answerPdf(c, new Uint8Array(await deps.printPlan(sheet)), `Plan ${name}`, 'no-store')
}

interface FoundPlan {
  readonly plan: Plan
  readonly of: PlanOf
  readonly name: string
  readonly takenAt: number | null
  readonly isCalendar: boolean
}

function findPlan(c: Context, { db, planner }: ApiDeps): FoundPlan | null {
  const file = fileSchema.safeParse(c.req.param('file'))
  const inForce = planner.inForce()
  const plan = inForce?.plan ?? planner.status().newest?.plan ?? null
  if (!file.success || plan === null) return null
  const subject = findSubject(
    c.req.param('of') ?? '',
    file.data.slice(0, -'.pdf'.length),
    readWorkshop(db),
    db,
  )
  if (subject === null) return null
  return { plan, ...subject, takenAt: inForce?.takenAt ?? null, isCalendar: file.data.endsWith('.ics') }
}

function findSubject(
  kind: string,
  id: string,
  { people, bays }: WorkshopState,
  db: ApiDeps['db'],
): Pick<FoundPlan, 'of' | 'name'> | null {
  const personId = kind === 'person' ? personIdSchema.safeParse(id).data : undefined
  if (personId !== undefined && people.has(personId))
    return { of: { kind: 'person', personId }, name: contactBook(db).nameOf(personId) }
  const bayId = kind === 'bay' ? bayIdSchema.safeParse(id).data : undefined
  const bay = bayId === undefined ? undefined : bays.get(bayId)
  return bay === undefined ? null : { of: { kind: 'bay', bayId: bay.id }, name: bay.name }
}

function createTelling({ db }: ApiDeps, workshop: WorkshopState): PlanTelling {
  const { nameOf } = contactBook(db)
  return {
    zone: workshop.zone,
    names: {
      car: (id) => readCar(db, id)?.name ?? 'a car',
      bay: (id) => workshop.bays.get(id)?.name ?? 'a bay',
      person: nameOf,
      work: ({ carId, target }) => {
        const car = readCar(db, carId)
        return car === null ? 'work' : targetWords(car, target)
      },
    },
    worksOn: (person, date) => endOfWorkingDay(personCalendar(workshop, person), date) !== null,
  }
}

const { refusal: unknownPlan } = refuse(
  'unknown',
  'There is no such plan.',
  'Choose a person or a bay on the Plan screen.',
)
const { refusal: nothingPlanned } = refuse(
  'unknown',
  'Nothing is planned here, so there is no calendar to give.',
  'Choose another person or bay, or look again when the plan has moved on.',
)
