import type { PersonId } from '../ids.ts'
import { refuse } from '../refusal.ts'
import { plural } from '../text/words.ts'
import type { WorkshopState } from '../workshop.ts'
import { hasSkill } from './work-holds.ts'

/** What people are given, as far as it says who may have it. */
interface GivenWork {
  /** 'Sill, left: welded' */
  readonly name: string
  readonly skill: string
  readonly people: number
}

/** Why work cannot be given to these people, whether in earnest or to try it; null when it can. */
export function givenPeopleRefusal(
  { people: known }: Pick<WorkshopState, 'people'>,
  ids: readonly PersonId[],
  { name, skill, people }: GivenWork,
): ReturnType<typeof refuse> | null {
  if (new Set(ids).size < ids.length)
    return refuse('bad-input', 'Somebody is named twice.', 'Name each person once.')
  if (ids.some((id) => !known.get(id)?.active))
    return refuse(
      'unknown',
      'Somebody named here does not work in the workshop.',
      'Choose people from the list.',
    )
  if (ids.length > people)
    return refuse(
      'bad-input',
      `${name} takes ${plural('person', people, 'people')}.`,
      'Name no more than that, or change the work first.',
    )
  if (ids.some((id) => !hasSkill(known.get(id), skill)))
    return refuse(
      'bad-input',
      `Somebody named here has not the skill '${skill}' that ${name} asks for.`,
      'Choose people who have it, or add the skill to theirs.',
    )
  return null
}
