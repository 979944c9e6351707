import type { FactKind } from '../facts.ts'

/** Facts that the planner's answer does not go by: they change neither work nor hours, people, places, dates or holds. */
const NOT_PLANNED_BY: ReadonlySet<FactKind> = new Set<FactKind>([
  'partyAdded',
  'contactErased',
  'typeSaved',
  'typeRetired',
  'headsLinked',
  'carChanged',
  'dimensionAdded',
  'dimensionTargetSet',
  'dimensionRead',
  'noted',
  'releaseAsked',
  'photoAttached',
  'captionSet',
  'photoShowsSet',
  'photoMarked',
  'costsSet',
  'costTakenOff',
  'costSpent',
  'ratesSet',
  'bandsStated',
  'reportIssued',
  'reportsSet',
  'watchCompleted',
  'planTaken',
])

/** Whether a fact of this kind may change the plan, so that it is made anew and the fact may be named as a cause. */
export const isPlannedBy = (kind: FactKind): boolean => !NOT_PLANNED_BY.has(kind)
