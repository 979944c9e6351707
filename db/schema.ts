/**
 * Over 300 lines because every table is declared once, in one place. The tables as the program sees them; the SQL in
 * migrations/ makes them and says what the columns mean, and a test compares the two.
 */
import { blob, integer, primaryKey, real, sqliteTable, text } from 'drizzle-orm/sqlite-core'
import type { Visit } from '../domain/car.ts'
import type { JudgedRepair } from '../domain/estimate/judged-repair.ts'
import type { FactKind } from '../domain/facts.ts'
import type { Grade } from '../domain/facts/shapes.ts'
import type {
  AttachmentId,
  BayId,
  BookingId,
  CarId,
  CommandId,
  DeviceId,
  EntryId,
  PersonId,
  PlanId,
  RepairId,
  ReportId,
  TypeId,
  VisitId,
} from '../domain/ids.ts'
import type { ReportChoices } from '../domain/report/report-choices.ts'
import type { DrillGrouping } from '../domain/value/variance-groups.ts'
import type { SearchedKind } from '../domain/views/searched-texts.ts'
import type { PhotoType } from './photos/sniff.ts'

/** A car's id, or the workshop's own chain; the blank keeps it apart from every id. */
export const WORKSHOP_CHAIN = 'the workshop'
export type Chain = CarId | typeof WORKSHOP_CHAIN

export const journal = sqliteTable('journal', {
  /** The only order of facts, counted from 1 without gaps. */
  number: integer('number').primaryKey({ autoIncrement: true }),
  chain: text('chain').$type<Chain>().notNull(),
  /** Place in its chain, counted from 1 without gaps. */
  chainNumber: integer('chain_number').notNull(),
  kind: text('kind').$type<FactKind>().notNull(),
  version: integer('version').notNull(),
  /** The car's current visit when the fact was recorded. */
  visitId: text('visit_id').$type<VisitId>(),
  by: text('person_id').$type<PersonId>(),
  device: text('device_id').$type<DeviceId>(),
  commandId: text('command_id').$type<CommandId>().notNull(),
  happened: text('happened').notNull(),
  made: text('made').notNull(),
  /** The host's time in UTC; never before the line before. */
  recorded: text('recorded').notNull(),
  /** SHA-256 of salt and canonical payload, hexadecimal like the other two. */
  digest: text('digest').notNull(),
  prev: text('prev').notNull(),
  hash: text('hash').notNull(),
})

export const payload = sqliteTable('payload', {
  number: integer('number').primaryKey(),
  /** Canonical JSON (RFC 8785) in the version that its line names; never migrated. */
  json: text('json').notNull(),
  salt: blob('salt', { mode: 'buffer' }).notNull(),
})

export const commandAnswer = sqliteTable('command_answer', {
  commandId: text('command_id').$type<CommandId>().primaryKey(),
  digest: text('digest').notNull(),
  revision: integer('revision').notNull(),
  numbers: text('numbers', { mode: 'json' }).$type<readonly number[]>().notNull(),
  carId: text('car_id').$type<CarId>(),
})

export const carTable = sqliteTable('car', {
  id: text('id').$type<CarId>().primaryKey(),
  shellNumber: text('shell_number').notNull().unique(),
  name: text('name').notNull(),
  /** Number of the last line in the car's chain. */
  revision: integer('revision').notNull(),
  /** Where the shell stands now. */
  bayId: text('bay_id').$type<BayId>(),
  /** Epoch milliseconds; null unless the car rests. */
  restsUntil: integer('rests_until'),
  /** RestingCar as JSON. */
  brief: text('brief'),
})

/** Bookings that stand; cancelled ones have no row. */
export const booking = sqliteTable('booking', {
  id: text('id').$type<BookingId>().primaryKey(),
  carId: text('car_id').$type<CarId>().notNull(),
  bayId: text('bay_id').$type<BayId>().notNull(),
  from: text('from_date').notNull(),
  to: text('to_date').notNull(),
})

/** Entries that count; voided and corrected ones have no row. Epoch milliseconds. */
export const timeEntry = sqliteTable('time_entry', {
  id: text('id').$type<EntryId>().primaryKey(),
  personId: text('person_id').$type<PersonId>().notNull(),
  /** Null for time on the workshop itself. */
  carId: text('car_id').$type<CarId>(),
  started: integer('started').notNull(),
  ended: integer('ended').notNull(),
})

export const attachment = sqliteTable('attachment', {
  id: text('id').$type<AttachmentId>().primaryKey(),
  carId: text('car_id').$type<CarId>().notNull(),
  sha256: text('sha256').notNull(),
})

export const report = sqliteTable('report', {
  id: text('id').$type<ReportId>().primaryKey(),
  carId: text('car_id').$type<CarId>().notNull(),
  visitId: text('visit_id').$type<VisitId>().notNull(),
  week: text('week').notNull(),
  sha256: text('sha256').notNull(),
  /** Of the page beside the PDF; null for reports from before there were pages. */
  page: text('page'),
})

/** What the manager has chosen for a report that is not issued yet. */
export const reportDraft = sqliteTable(
  'report_draft',
  {
    visitId: text('visit_id').$type<VisitId>().notNull(),
    week: text('week').notNull(),
    choices: text('choices', { mode: 'json' }).$type<ReportChoices>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.visitId, table.week] })],
)

/** When a report that is not issued yet was prepared, with what was wrong with it. */
export const preparedReport = sqliteTable(
  'prepared_report',
  {
    visitId: text('visit_id').$type<VisitId>().notNull(),
    week: text('week').notNull(),
    /** Epoch milliseconds. */
    preparedAt: integer('prepared_at').notNull(),
    /** Sentences; none when it can be issued as it is. */
    problems: text('problems', { mode: 'json' }).$type<readonly string[]>().notNull(),
  },
  (table) => [primaryKey({ columns: [table.visitId, table.week] })],
)

/** One row for each finished repair, person-hours. */
export const finishedRepair = sqliteTable('finished_repair', {
  /** Grows with each row that is written and is no part of what is derived. */
  sequence: integer('sequence').primaryKey({ autoIncrement: true }),
  /** Car and repair: a repair's id is known within its car only. */
  id: text('id').notNull().unique(),
  carId: text('car_id').$type<CarId>().notNull(),
  repairId: text('repair_id').$type<RepairId>().notNull(),
  visitId: text('visit_id').$type<VisitId>().notNull(),
  typeId: text('type_id').$type<TypeId>(),
  estimator: text('estimator').$type<PersonId>(),
  /** The journal's number of the gate that finished it. */
  number: integer('number').notNull(),
  finishedAt: integer('finished_at').notNull(),
  before: real('before').notNull(),
  assessed: real('assessed').notNull(),
  actual: real('actual').notNull(),
  gates: text('gates', { mode: 'json' }).$type<JudgedRepair['gates']>().notNull(),
  outside: text('outside').$type<Grade>(),
  hidden: text('hidden', { mode: 'json' }).$type<JudgedRepair['hidden']>().notNull(),
  worstHidden: text('worst_hidden').$type<Grade>(),
  stated: text('stated', { mode: 'json' }).$type<JudgedRepair['stated']>().notNull(),
  taken: integer('taken', { mode: 'boolean' }).notNull(),
})

/** Texts that a search goes through; their words stand beside it in a table of SQLite's FTS5, `searched_words`. */
export const searched = sqliteTable('searched', {
  /** Of the journal's fact that made it. */
  number: integer('number').primaryKey(),
  kind: text('kind').$type<SearchedKind>().notNull(),
  carId: text('car_id').$type<CarId>().notNull(),
  repairId: text('repair_id').$type<RepairId>(),
  attachmentId: text('attachment_id').$type<AttachmentId>(),
  at: integer('at').notNull(),
  text: text('text').notNull(),
  beside: text('beside').notNull(),
})

export const photo = sqliteTable('photo', {
  sha256: text('sha256').primaryKey(),
  bytes: integer('bytes').notNull(),
  /** Pixels of the upright picture. */
  width: integer('width').notNull(),
  height: integer('height').notNull(),
  type: text('type').$type<PhotoType>().notNull(),
  /** 'YYYY-MM-DDTHH:MM:SS' and '+HH:MM' as the camera's clock showed them; null where it did not say. */
  cameraLocal: text('camera_local'),
  cameraOffset: text('camera_offset'),
  received: text('received').notNull(),
})

/** Names and addresses of people and parties: here only, never in the journal. */
export const contact = sqliteTable('contact', {
  id: text('id').primaryKey(),
  name: text('name').notNull(),
  phone: text('phone').notNull(),
  email: text('email').notNull(),
  address: text('address').notNull(),
})

export const device = sqliteTable('device', {
  id: text('id').$type<DeviceId>().primaryKey(),
  name: text('name').notNull(),
  /** SHA-256 of the device's cookie, which is kept nowhere here. */
  tokenHash: text('token_hash').notNull().unique(),
  paired: text('paired').notNull(),
  revoked: text('revoked'),
  /** Kept at most once a minute. */
  lastUsed: text('last_used'),
})

/** Who gave their code on a device and has not left it since. */
export const session = sqliteTable('session', {
  deviceId: text('device_id').$type<DeviceId>().primaryKey(),
  personId: text('person_id').$type<PersonId>().notNull(),
  started: text('started').notNull(),
})

export const code = sqliteTable('code', {
  personId: text('person_id').$type<PersonId>().primaryKey(),
  /** Tells which key it was made with, without telling the key. */
  keyId: text('key_id').notNull(),
  /** scrypt's N. */
  cost: integer('cost').notNull(),
  salt: blob('salt', { mode: 'buffer' }).notNull(),
  hash: blob('hash', { mode: 'buffer' }).notNull(),
})

export const codeLock = sqliteTable(
  'code_lock',
  {
    personId: text('person_id').$type<PersonId>().notNull(),
    deviceId: text('device_id').$type<DeviceId>().notNull(),
    /** Wrong codes since the last right one. */
    wrong: integer('wrong').notNull(),
    /** Epoch milliseconds. */
    lockedUntil: integer('locked_until').notNull(),
  },
  (table) => [primaryKey({ columns: [table.personId, table.deviceId] })],
)

/** Why a plan is kept: 'moved' when a car's finish at 50 % or 80 % had moved by a day or more. */
export type WhyKept = 'proposal' | 'taken' | 'day end' | 'moved'

export const keptPlan = sqliteTable('kept_plan', {
  planId: text('plan_id').$type<PlanId>().primaryKey(),
  madeAt: integer('made_at').notNull(),
  /** When it was taken, for one that was. */
  keptAt: integer('kept_at').notNull(),
  why: text('why').$type<WhyKept>().notNull(),
  cause: text('cause').notNull(),
  /** Of the canonical JSON of the content; a plan that was taken is named by it in the journal. */
  sha256: text('sha256').notNull(),
  /** The canonical JSON, deflated (RFC 1951): a tenth of the text. */
  content: blob('content', { mode: 'buffer' }).notNull(),
  /** Number of the last line of the journal that it was made from. */
  revision: integer('revision').notNull(),
})

/** The finishes of a kept plan's cars, epoch milliseconds, so that a car's history needs no content. */
export const keptPlanCar = sqliteTable(
  'kept_plan_car',
  {
    planId: text('plan_id').$type<PlanId>().notNull(),
    carId: text('car_id').$type<CarId>().notNull(),
    finish50: integer('finish50'),
    finish80: integer('finish80'),
  },
  (table) => [primaryKey({ columns: [table.planId, table.carId] })],
)

/** The plan that each authorised amount of a car was planned by. */
export const plannedAmount = sqliteTable(
  'planned_amount',
  {
    carId: text('car_id').$type<CarId>().notNull(),
    amountId: text('amount_id').notNull(),
    visitId: text('visit_id').$type<VisitId>().notNull(),
    /** Key of the gate or task. */
    target: text('target').notNull(),
    /** Journal number of what authorised it. */
    accepted: integer('accepted').notNull(),
    /** Null while no plan that was taken has work of it. */
    planId: text('plan_id').$type<PlanId>(),
    /** JSON, [[local date, share], ...]. */
    days: text('days').notNull(),
  },
  (table) => [primaryKey({ columns: [table.carId, table.amountId] })],
)

/** Person-hours of one group of a visit; gates and tasks that a clock runs on are left out. */
export const varianceSum = sqliteTable(
  'variance_sum',
  {
    grouping: text('grouped_by').$type<DrillGrouping>().notNull(),
    key: text('key').notNull(),
    visitId: text('visit_id').$type<VisitId>().notNull(),
    carId: text('car_id').$type<CarId>().notNull(),
    baseline: real('baseline').notNull(),
    authorised: real('authorised').notNull(),
    waiting: real('waiting').notNull(),
    earned: real('earned').notNull(),
    spent: real('spent').notNull(),
    spentOnOpen: real('spent_on_open').notNull(),
    expected: real('expected').notNull(),
    rework: real('rework').notNull(),
    givenBack: real('given_back').notNull(),
    onReleased: real('on_released').notNull(),
    /** The days to come too. */
    planned: real('planned').notNull(),
    earnedOfPlanned: real('earned_of_planned').notNull(),
    /** JSON, rework by cause. */
    causes: text('causes').notNull(),
  },
  (table) => [primaryKey({ columns: [table.grouping, table.key, table.visitId] })],
)

export const varianceVisit = sqliteTable('variance_visit', {
  visitId: text('visit_id').$type<VisitId>().primaryKey(),
  carId: text('car_id').$type<CarId>().notNull(),
  kind: text('kind').$type<Visit['kind']>().notNull(),
  /** Journal number. */
  opened: integer('opened').notNull(),
  earnedOfPlanned: real('earned_of_planned').notNull(),
  /** JSON of its plan by weeks. */
  schedule: text('schedule'),
})

/** Planned hours of a visit on a local date. */
export const varianceDay = sqliteTable(
  'variance_day',
  {
    visitId: text('visit_id').$type<VisitId>().notNull(),
    date: text('date').notNull(),
    carId: text('car_id').$type<CarId>().notNull(),
    hours: real('hours').notNull(),
    /** JSON, {grouping: {key: hours}}. */
    planned: text('planned').notNull(),
  },
  (table) => [primaryKey({ columns: [table.visitId, table.date] })],
)

export const setting = sqliteTable('setting', {
  name: text('name').primaryKey(),
  value: text('value').notNull(),
})
