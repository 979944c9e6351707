/*
 * Goes on with the story in a data folder where it was left, and prints each answer after it was given: argv is the folder.
 * Killed at any moment by story-kills.ts.
 */
import { writeSync } from 'node:fs'
import process from 'node:process'
import type { Database } from '../../db/database.ts'
import { executeCommand } from '../../db/execute-command.ts'
import { chainHead } from '../../db/journal.ts'
import { openDatabase } from '../../db/open-database.ts'
import { keepPlan } from '../../db/plans.ts'
import { carIdSchema, type PlanId } from '../../domain/ids.ts'
import { simplePlan } from '../support/kept-plan.ts'
import { photos, recordPhotos, tellStory } from './story.ts'

const story = tellStory()
const db = openDatabase(process.argv[2] ?? '')
writeSync(1, 'opened\n')
recordPhotos(db, photos)
for (const request of story) {
  const { id, kind, carId } = request.command
  if (isKnown(db, id)) continue
  if (kind === 'takePlan')
    keepPlanToTake(db, request.command.payload as { readonly planId: PlanId }, request.now)
  const payload =
    kind === 'issueReport' && carId !== null
      ? { ...(request.command.payload as object), head: chainHead(db, carId) }
      : request.command.payload
  const answer = executeCommand(db, { ...request, command: { ...request.command, payload } })
  writeSync(1, `${id} ${answer.ok ? answer.numbers.join() : `refused: ${answer.refusal.message}`}\n`)
}
writeSync(1, 'end\n')

function isKnown({ reader }: Database, id: string): boolean {
  return reader.sqlite.prepare('SELECT 1 FROM command_answer WHERE command_id = ?').get(id) !== undefined
}

function keepPlanToTake(into: Database, { planId }: { readonly planId: PlanId }, now: number): void {
  const isKept = into.reader.sqlite.prepare('SELECT 1 FROM kept_plan WHERE plan_id = ?').get(planId)
  if (isKept !== undefined) return
  const plan = simplePlan(carIdSchema.parse('car-s-101'), { finish50: null })
  keepPlan(into, { planId, plan, why: 'proposal', cause: 'A new lid is asked for.', revision: 1 }, now)
}
