import { capital } from '../../../domain/text/words.ts'
import type { RepairCard } from '../../../domain/views/shared-views.ts'
import { zoneWords } from '../../../domain/views/work-words.ts'

/** Repairs that are not retired, by zone, for lists to choose from. */
export const repairChoices = (repairs: readonly RepairCard[]) =>
  repairs
    .filter((repair) => !repair.retired)
    .map(({ id, name, zone }) => ({ value: id, words: name, group: capital(zoneWords(zone)) }))
