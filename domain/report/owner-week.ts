import { ERASED_CONTACT } from '../commands/erased-contact.ts'
import { type FactOf, factsOfKind } from '../facts.ts'
import type { OwnerLanguage } from '../language/owner-language.ts'
import { languages } from '../language/languages.ts'
import { formatIsoWeek } from '../time/iso-week.ts'
import { localDateOf } from '../time/zone.ts'
import type { NameOf } from '../views/shared-views.ts'
import { decidedSection } from './decided.ts'
import { doneSection } from './done.ts'
import { foundSection } from './found.ts'
import { knowSection } from './know.ts'
import { needsSection } from './needs.ts'
import { nextSection } from './next.ts'
import { openingTexts } from './opening.ts'
import type { OwnerWeek, ReportSection } from './owner-week-shapes.ts'
import type { ReportChoices } from './report-choices.ts'
import { readySection } from './ready.ts'
import { paragraphs } from './sentences.ts'
import { standsSection } from './stands.ts'
import { type Telling, tellingCar, type TellingInput, toldRepairs } from './telling.ts'
import { troubleSection } from './trouble.ts'
import { hoursSection } from './week-hours.ts'
import type { WeekExpected } from './week-expected.ts'
import { choosePhotos, type WeekPhotos } from './week-photos.ts'

export interface OwnerWeekInput extends TellingInput {
  readonly choices: ReportChoices
  /** Null where nothing is known of what to expect: then the report says nothing of it. */
  readonly expected: WeekExpected | null
}

/** What the owner of a car is told about one week. Null when the visit was not known by the end of that week. */
export function ownerWeek(known: OwnerWeekInput): OwnerWeek | null {
  const { choices, expected } = known
  const say = languages[choices.language]
  const input = { ...known, nameOf: namesIn(say, known.nameOf) }
  const told = tellingCar(input)
  if (told === null) return null
  const telling: Telling = { ...told, say, choices, expected }
  const { car, visit, week, context } = telling
  const owner = input.nameOf(visit.ownerId)
  const issued = issuedReports(input)
  return {
    workshop: input.workshop.name,
    owner,
    language: choices.language,
    title: say.letter.title(car.name, car.shellNumber),
    subtitle: say.letter.subtitle(week.week.week, week.monday, week.sunday),
    week: formatIsoWeek(week.week),
    asOf: localDateOf(telling.at, context.workshop.zone),
    written: say.figures.day(localDateOf(input.now, input.workshop.zone), 0),
    number: issued.length + 1,
    greeting: say.letter.greeting(owner),
    opening: [...correctionTexts(telling, issued), ...openingTexts(telling)],
    words: paragraphs(choices.words),
    sections: sectionsOf(telling, choosePhotos(telling, choices)),
    cautions: cautionsOf(telling),
  }
}

const namesIn =
  ({ letter }: OwnerLanguage, nameOf: NameOf): NameOf =>
  (id) => {
    const name = nameOf(id)
    return name === ERASED_CONTACT.name ? letter.erased : name
  }

/** Those of the visit, whenever they were issued. */
function issuedReports({ facts, visitId }: OwnerWeekInput): readonly FactOf<'reportIssued'>[] {
  return factsOfKind(facts, 'reportIssued').filter(({ payload }) => payload.visitId === visitId)
}

/** An issued report never changes: what follows it for the same week says that it takes its place. */
function correctionTexts(
  { say, week }: Telling,
  issued: readonly FactOf<'reportIssued'>[],
): readonly string[] {
  const last = issued.findLastIndex(({ payload }) => payload.week === formatIsoWeek(week.week))
  return last === -1 ? [] : [say.letter.corrects(last + 1)]
}

/** In the order of a letter: what the owner must answer first, what was done, how it stands, what comes. */
function sectionsOf(telling: Telling, photos: WeekPhotos): readonly ReportSection[] {
  const sections = [
    needsSection(telling, photos.ofQuestions),
    foundSection(telling, photos.ofFindings),
    doneSection(telling, photos.ofWork),
    troubleSection(telling),
    decidedSection(telling),
    standsSection(telling),
    hoursSection(telling),
    knowSection(telling),
    nextSection(telling),
    readySection(telling),
    photos.others.length > 0
      ? {
          heading: telling.say.letter.morePhotos,
          blocks: [{ kind: 'plates' as const, plates: photos.others }],
        }
      : null,
  ]
  return sections.filter((section) => section !== null)
}

function cautionsOf(telling: Telling): readonly string[] {
  const { informs, loadBearing } = telling.say.letter
  return toldRepairs(telling).some(({ plan }) => plan.loadBearing) ? [`${informs} ${loadBearing}`] : [informs]
}
