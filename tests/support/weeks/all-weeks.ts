import { badNewsWeeks, reworkWeeks } from './bad-news-weeks.ts'
import { busyWeeks } from './busy-weeks.ts'
import { decisionWeeks } from './decision-weeks.ts'
import { firstWeeks, lastWeeks } from './first-last-weeks.ts'
import { quietWeeks } from './quiet-weeks.ts'
import { termsWeeks } from './terms-weeks.ts'
import { typedWeeks } from './typed-weeks.ts'

/** The told weeks, by what kind of weeks they are. */
export const weekGroups = {
  quiet: quietWeeks(),
  first: firstWeeks(),
  busy: busyWeeks(),
  'bad news': badNewsWeeks(),
  rework: reworkWeeks(),
  decisions: decisionWeeks(),
  terms: termsWeeks(),
  typed: typedWeeks(),
  last: lastWeeks(),
}
