import type { DecideContext, Decided } from '../domain/commands/decide.ts'
import { decideCommand } from '../domain/commands/decide-command.ts'
import type { Command } from '../domain/commands/command-shapes.ts'
import type { Fact } from '../domain/facts.ts'
import { workshopPlanFacts } from '../domain/facts/plan-facts.ts'
import { workshopFacts } from '../domain/facts/workshop-facts.ts'
import type { CarId } from '../domain/ids.ts'
import { refuse, type Refusal } from '../domain/refusal.ts'
import { instantToIso } from '../domain/time/zone.ts'
import { findAnswer, rememberAnswer, type Accepted } from './answers.ts'
import { appendFacts } from './append-facts.ts'
import { writeCodes } from './codes.ts'
import { rewriteContacts, writeContacts } from './contacts.ts'
import { isSqliteError, storageRefusal, tryToStore } from './database-problem.ts'
import type { Database } from './database.ts'
import { deriveCar, deriveWorkshop } from './derived.ts'
import { deriveCarVariance, derivePlanTaken } from './derive-variance.ts'
import { gatherContext, type CommandRequest } from './gather.ts'
import { emptyLog, inTransaction } from './handle.ts'
import { lastLine } from './chains.ts'
import { appendHeads } from './link-heads.ts'
import { forgetIssued } from './reports-in-preparation.ts'
import { currentCar, currentWorkshop, forget, takeIn } from './state-cache.ts'

export type CommandAnswer = Accepted | { readonly ok: false; readonly refusal: Refusal }

export type CommandsAnswer =
  | { readonly ok: true; readonly answers: readonly Accepted[] }
  /** `index`: the command that was refused. Nothing of any of them was recorded. */
  | { readonly ok: false; readonly refusal: Refusal; readonly index: number }

/**
 * The one way in which anything comes into the journal: gathers what is known, lets the domain decide, records what was
 * decided, all in one transaction that is on the disk when this returns. The same command again gets its first answer.
 */
export function executeCommand(db: Database, request: CommandRequest): CommandAnswer {
  const answer = executeCommands(db, [request])
  if (!answer.ok) return { ok: false, refusal: answer.refusal }
  const [accepted] = answer.answers
  if (!accepted) throw new Error('One command gave no answer.')
  return accepted
}

/** Several commands in one transaction, each decided on what those before it recorded: all of them or none. */
export function executeCommands(db: Database, requests: readonly CommandRequest[]): CommandsAnswer {
  const run = createRun()
  const { finished } = db.cache
  let index = 0
  try {
    const answers = inTransaction(db.writer, () => {
      const accepted = requests.map((request, at) => {
        index = at
        return executeOne(db, request, run)
      })
      deriveSums(db, run)
      return accepted
    })
    db.noteEnd()
    // What was recorded stays recorded where the disk fails now; the host tries it again (electron/copies/erasure-keeper.ts).
    if (run.erased) tryToStore(() => emptyLog(db.writer))
    return { ok: true, answers }
  } catch (error) {
    forget(db.cache, run.touched, finished)
    const refusal = refusalOf(error)
    if (refusal) return { ok: false, refusal, index }
    throw error
  }
}

/** What the commands of one transaction have done so far. */
export interface Run {
  readonly touched: Set<CarId | null>
  /** Sums over hours are made once a car at the end, however many of its facts changed them. */
  readonly unsummed: Map<CarId, Fact[]>
  planTaken: boolean
  erased: boolean
}

/** Of a transaction in which nothing has been done yet. */
export const createRun = (): Run => ({
  touched: new Set(),
  unsummed: new Map(),
  planTaken: false,
  erased: false,
})

/**
 * One command inside the transaction that is running; the sums over hours are left to {@link executeCommands}.
 *
 * @throws what `refusalOf` tells from a defect
 */
export function executeOne(db: Database, request: CommandRequest, run: Run): Accepted {
  const { command } = request
  const earlier = findAnswer(db.writer, command, db.codeKey)
  if (earlier.kind === 'same') return earlier.answer
  if (earlier.kind === 'other')
    throw new Refused(
      refuse(
        'same-id-other-content',
        'Something else was recorded under this id already.',
        'Reload the screen and enter it again.',
      ).refusal,
    )
  const context = gatherContext(db, request)
  requireSeen(command, context)
  const decided = decideCommand(command, context)
  if (!decided.ok) throw new Refused(decided.refusal)
  requireOwnChain(command, context, decided.value)
  return record(db, request, context, decided.value, run)
}

function record(
  db: Database,
  { command, device, now }: CommandRequest,
  context: DecideContext,
  { facts, contacts, codes }: Decided,
  run: Run,
): Accepted {
  const { writer, codeKey } = db
  const carId = carOf(command, facts)
  const recorded = appendFacts(writer, facts, {
    carId,
    visitId: context.car?.currentVisit ?? null,
    by: command.by,
    device,
    commandId: command.id,
    made: command.made,
    now,
    happened: command.happened ?? instantToIso(now, context.workshop.zone),
  })
  run.touched.add(carId)
  derive(db, carId, recorded, run)
  writeContacts(writer, contacts)
  if (recorded.some(({ kind }) => kind === 'contactErased')) {
    rewriteContacts(writer)
    run.erased = true
  }
  writeCodes(db, codes, device)
  if (recorded.some(({ kind }) => kind === 'reportIssued')) {
    forgetIssued(writer, recorded)
    appendHeads(writer, now)
    run.touched.add(null)
  }
  const numbers = recorded.map(({ number }) => number)
  const answer: Accepted = { ok: true, revision: lastLine(writer)?.number ?? 0, numbers, carId }
  rememberAnswer(writer, command, codeKey, answer)
  return answer
}

function derive({ writer, cache }: Database, carId: CarId | null, facts: readonly Fact[], run: Run): void {
  if (facts.length === 0) return
  if (carId === null) {
    deriveWorkshop(writer, currentWorkshop(writer, cache), facts)
    run.planTaken ||= facts.some(({ kind }) => kind === 'planTaken')
    return
  }
  deriveCar(writer, takeIn(writer, cache, carId, facts), facts)
  const unsummed = run.unsummed.get(carId) ?? []
  unsummed.push(...facts)
  run.unsummed.set(carId, unsummed)
}

function deriveSums({ writer, cache }: Database, { unsummed, planTaken }: Run): void {
  for (const [carId, facts] of unsummed) {
    const car = currentCar(writer, cache, carId)
    if (car !== null) deriveCarVariance(writer, cache, car, facts)
  }
  if (planTaken) derivePlanTaken(writer, cache)
}

/** A car is added by a command that cannot be about it yet. */
function carOf(command: Command, facts: Decided['facts']): CarId | null {
  const added = facts.find((fact) => fact.kind === 'carAdded')
  return added ? added.payload.carId : command.carId
}

/** An edit says on which revision it was made: what somebody else recorded since must not be overwritten unseen. */
function requireSeen({ seen, carId }: Command, { car, workshop }: DecideContext): void {
  const revision = carId === null ? workshop.revision : (car?.revision ?? 0)
  if (seen !== null && revision > seen)
    throw new Refused(
      refuse(
        'changed-meanwhile',
        'Somebody else has changed this while you were at it.',
        'Look at what it says now, then save yours again or leave it.',
      ).refusal,
    )
}

/** A fact goes into the chain that its command names: a car that exists, or the workshop for what is the workshop's. */
function requireOwnChain({ kind, carId }: Command, { car }: DecideContext, { facts }: Decided): void {
  if (carId === null || kind === 'addCar') return
  if (car === null)
    throw new Refused(
      refuse('unknown', 'This car is not known.', 'Go back to Cars and choose it again.').refusal,
    )
  if (facts.some((fact) => fact.kind in workshopFacts || fact.kind in workshopPlanFacts))
    throw new Refused(
      refuse(
        'bad-input',
        'This belongs to the workshop and not to a car.',
        'Reload the screen and try again.',
      ).refusal,
    )
}

/** Ends the transaction without a trace. */
export class Refused extends Error {
  readonly refusal: Refusal
  constructor(refusal: Refusal) {
    super(refusal.message)
    this.refusal = refusal
  }
}

/** The refusal that an error of `executeOne` stands for; null for a defect. */
export function refusalOf(error: unknown): Refusal | null {
  if (error instanceof Refused) return error.refusal
  if (isSqliteError(error) && TAKEN.includes(error.code))
    return refuse(
      'already',
      'Something else in the workshop has the same id or shell number.',
      'Reload the screen and enter it again.',
    ).refusal
  return storageRefusal(error)
}

/** A screen that sends an id of its own making may hit one that another car has; the tables find it. */
const TAKEN: readonly string[] = ['SQLITE_CONSTRAINT_PRIMARYKEY', 'SQLITE_CONSTRAINT_UNIQUE']
