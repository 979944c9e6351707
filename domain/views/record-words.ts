import type { Fact, FactKind, PayloadOf } from '../facts.ts'
import { FEW_FIXTURES } from '../facts/plan-facts.ts'
import { marksWords } from '../photo-marks/marks-words.ts'
import { bayWords } from '../text/bay-words.ts'
import { capital, fixed, joinWords, plural, weekdaysWords } from '../text/words.ts'
import { hoursWords, nameIdsInWords, type RecordNames } from './record-names.ts'

/** What a fact says, without who and when: those stand beside it. Lengths are given as they were read, digit by digit. */
export function factWords(fact: Fact, names: RecordNames): string {
  // The table's entry for a kind takes that kind's payload; the compiler cannot join the two by itself.
  const words = WORDS[fact.kind] as (payload: Fact['payload'], names: RecordNames) => string
  return words(fact.payload, names)
}

type WordsOf<K extends FactKind> = (payload: PayloadOf<K>, names: RecordNames) => string

const WORDS: { readonly [K in FactKind]: WordsOf<K> } = {
  workshopSetUp: ({ name, zone }) => `Workshop ${name} set up, in the time zone ${zone}`,
  personAdded: ({ personId, roles }, { of }) => `${of(personId)} added as ${joinWords(roles)}`,
  personChanged: ({ personId, active, absences }, { of, days }) => {
    const away = absences.map(({ from, to }) => days(from, to)).toReversed()
    if (!active) return `${of(personId)} no longer works here`
    return away.length === 0 ? `${of(personId)} changed` : `${of(personId)} changed, off ${shortList(away)}`
  },
  partyAdded: ({ partyId, kind }, { of }) => `${of(partyId)} added as ${kind}`,
  contactErased: () => 'Name and address of a contact erased for good',
  bayAdded: ({ name, kinds }) => `${capital(bayWords(name))} added for ${joinWords(kinds)}`,
  bayChanged: ({ name, active }) => `${capital(bayWords(name))} ${active ? 'changed' : 'taken out of use'}`,
  calendarSet: ({ holidays }) => `Working week and ${plural('holiday', holidays.length)} set`,
  settingsSet: ({ watchMinutes }) => `Limits set; fire watch ${watchMinutes} minutes`,
  reportsSet: ({ weekly }) =>
    weekly === null
      ? 'Owner reports are prepared by hand'
      : `Owner reports are prepared each ${weekdaysWords([weekly.weekday])} at ${weekly.time}`,
  ratesSet: ({ from, usual, bySkill }, { day, money }) =>
    `Rates from ${day(from)}: ${money(usual)} an hour${bySkill.map(({ skill, perHour }) => `, ${skill} ${money(perHour)}`).join('')}`,
  typeSaved: ({ plan, version }) => `Repair type ${plan.name} saved, version ${version}`,
  typeRetired: ({ typeId, reason }, { of }) => because(`Repair type ${of(typeId)} retired`, reason),
  headsLinked: ({ heads }) => `Chains of ${plural('car', Object.keys(heads).length)} linked`,

  carAdded: ({ name, shellNumber }) => `${name} added, shell ${shellNumber}`,
  carChanged: ({ name, shellNumber }) => `Car changed: ${name}, shell ${shellNumber}`,
  visitOpened: ({ kind, ownerId, promised }, { of, day }) =>
    `${kind === 'warranty' ? 'Warranty visit' : 'Visit'} opened for ${of(ownerId)}${promised ? `, promised ${day(promised)}` : ''}`,
  visitChanged: ({ promised, priority, insurerId }, { of, day }) =>
    `Agreement changed: ${promised ? `promised ${day(promised)}` : 'no promised date'}, priority ${priority}${insurerId ? `, insurer ${of(insurerId)}` : ''}`,
  visitStatusSet: ({ status, reason }) => because(`Visit ${status}`, reason),
  safetySet: ({ item, stands, note }) => because(SAFETY_WORDS[item][stands ? 'stands' : 'ended'], note),
  dimensionAdded: ({ name, mm }) => `${name} read as found: ${mm} mm`,
  dimensionTargetSet: ({ dimensionId, targetMm, reason }, { of }) =>
    because(`Target of ${of(dimensionId)} set to ${targetMm} mm`, reason),
  dimensionRead: ({ dimensionId, mm, stood, doorsHung }, { of }) =>
    `${of(dimensionId)} read: ${mm} mm, shell on ${stood}, doors ${doorsHung ? 'hung' : 'off'}`,
  noted: ({ text }) => text,

  hoursTaken: ({ repairId, repairs }, { of }) =>
    `${of(repairId)}: its hours taken from ${plural('finished repair', repairs)}`,
  repairAdded: ({ plan }) => `Repair ${plan.name} added`,
  repairChanged: ({ plan, reason }) => because(`${plan.name} changed`, reason),
  repairRetired: ({ repairId, reason }, { of }) => because(`${of(repairId)} retired`, reason),
  repairSplit: ({ repairId, plan, moves, reason }, { of }) =>
    because(`${plan.name} split off ${of(repairId)}, ${movedWords(moves)}`, reason),
  repairsMerged: ({ repairId, into, moves, reason }, { of }) =>
    because(`${of(repairId)} merged into ${of(into)}, ${movedWords(moves)}`, reason),
  coverLinked: ({ over, under }, { of }) => `${of(over)} covers ${of(under)}`,
  coverUnlinked: ({ over, under, reason }, { of }) =>
    because(`${of(over)} no longer covers ${of(under)}`, reason),
  fitGroupSet: ({ name, members, hungParts }, { of }) =>
    `Fit group ${name}: ${[...members.map((id) => of(id)), ...hungParts].join('; ')}`,
  fitGroupDissolved: ({ groupId, reason }, { of }) => because(`Fit group ${of(groupId)} dissolved`, reason),
  taskAdded: ({ plan }) => `Task ${plan.name} added`,
  taskChanged: ({ plan }) => `Task ${plan.name} changed`,
  carBroughtIn: ({ from, lines, withheld }) =>
    `Brought in with its file from ${from}: ${plural('line', lines)}, chain verified${withheld === 0 ? '' : `, ${withheld} of them without their content`}`,

  gatePassed: ({ repairId, gate, did, second, released, note }, { of }) => {
    const people = `done by ${joinWords(did.map((id) => of(id)))}`
    const signed = second === null ? '' : `, second signature ${of(second)}`
    const held = released.length === 0 ? '' : `, released: ${joinWords(released)}`
    return because(`${of(repairId)}: ${gate} passed, ${people}${signed}${held}`, note)
  },
  gateNotNeeded: ({ repairId, gate, reason }, { of }) =>
    because(`${of(repairId)}: ${gate} not needed`, reason),
  gateReopened: ({ repairId, gate, cause, reason }, { of }) =>
    because(`${of(repairId)}: ${gate} and all after it reopened, ${cause}`, reason),
  holdReleased: ({ repairId, gate, code, reason, ownHold }, { of }) =>
    because(
      `${of(repairId)}: hold '${code}' released for ${gate}${ownHold ? ', by the person it held' : ''}`,
      reason,
    ),
  releaseAsked: ({ repairId, gate, code, reason }, { of }) =>
    because(`${of(repairId)}: release of '${code}' asked for, ${gate}`, reason),
  holdSet: ({ words, clears, expected, scope }, { of, target, day }) => {
    const on = scope.kind === 'car' ? 'the car' : scope.kind === 'repair' ? of(scope.repairId) : target(scope)
    return `Hold set on ${on}: ${words}; ${clears} clears it${expected ? `, expected ${day(expected)}` : ''}`
  },
  holdCleared: ({ holdId, note }, { of }) => because(`Hold cleared: ${of(holdId)}`, note),
  supportLifted: ({ repairIds, how }, { of }) =>
    because(`May stand open together: ${repairIds.map((id) => of(id)).join('; ')}`, how),

  photoAttached: ({ caption, serves }, words) =>
    `Photo of ${shownWords(serves, words)}${caption === '' ? '' : `: ${caption}`}`,
  captionSet: ({ caption }) => (caption === '' ? 'Caption taken off a photo' : `Caption set: ${caption}`),
  photoShowsSet: ({ serves }, words) => `A photo shows ${shownWords(serves, words)} after all`,
  photoMarked: ({ marks }) => (marks.length === 0 ? 'Marks taken off a photo' : `Photo ${marksWords(marks)}`),
  outsideGraded: ({ repairId, grade, note }, { of }) =>
    because(`${of(repairId)}: ${grade} as seen from outside`, note),
  layerGraded: ({ repairId, layerId, grade, judgedBy, remainingMm, decision }, { of }) => {
    const left = remainingMm === null ? '' : `, ${remainingMm} mm left`
    const judged = judgedBy === '' ? '' : ` (${judgedBy})`
    return `${of(repairId)}, ${of(layerId)}: ${grade}${judged}${left}; ${decision}`
  },
  layersMarked: ({ repairId, layerIds, mark }, { of }) =>
    `${of(repairId)}: ${joinWords(layerIds.map((id) => of(id)))} ${mark}`,
  findingAdded: ({ repairId, layerId, kind, grade, extent, needs }, { of }) =>
    `Found on ${of(repairId)}${layerId === null ? '' : `, ${of(layerId)}`}: ${kind}, ${grade}, ${extent}; needs ${needs}`,
  conditionsRead: ({ repairIds, gate, airC, humidityPercent, steelC }, { of }) =>
    `Conditions for ${gate} of ${shortList(repairIds.map((id) => of(id)))}: air ${fixed(airC, 1)} °C, humidity ${fixed(humidityPercent, 0)} %, steel ${fixed(steelC, 1)} °C`,
  drainsChecked: ({ repairIds, note }, { of }) =>
    because(`Every drain path open: ${shortList(repairIds.map((id) => of(id)))}`, note),
  weldsCounted: ({ repairId, welds }, { of }) =>
    `${of(repairId)}: welds counted on ${plural('joint', welds.length)}`,
  fitUpRecorded: ({ groupId, kind, readings, good, note }, { of }) =>
    because(
      `${of(groupId)}: ${FIT_UP_WORDS[kind]} ${good ? 'good' : 'not good'}, ${plural('edge', readings.length)} read`,
      note,
    ),
  surfacePrepared: ({ repairId, gate }, { of }) =>
    `${of(repairId)}: surface cleaned or abraded again for ${gate}`,
  partNeeded: ({ repairId, gate, name }, { of }) => `Part ${name} needed for ${of(repairId)}: ${gate}`,
  partMoved: ({ partId, state, expected, reason }, { of, day }) =>
    because(`Part ${of(partId)} ${state}${expected ? `, expected ${day(expected)}` : ''}`, reason),
  taskSigned: ({ taskId, did, note }, { of }) =>
    because(`Task ${of(taskId)} done by ${joinWords(did.map((id) => of(id)))}`, note),
  taskNotNeeded: ({ taskId, reason }, { of }) => because(`Task ${of(taskId)} not needed`, reason),
  taskReopened: ({ taskId, cause, reason }, { of }) =>
    because(`Task ${of(taskId)} reopened, ${cause}`, reason),
  factVoided: ({ number, reason }) => because(`Line ${number} voided`, reason),

  estimateSet: ({ lines }) =>
    `Estimate set: ${plural('line', lines.length)}, ${hoursWords(lines.reduce((sum, { agreed }) => sum + agreed, 0))}`,
  estimateAccepted: ({ payer, lineIds, costIds, how, note }) =>
    because(
      `${joinWords([
        ...(lineIds.length === 0 ? [] : [plural('estimate line', lineIds.length)]),
        ...(costIds.length === 0 ? [] : [plural('cost', costIds.length)]),
      ])} accepted by the ${payer}, by ${how}`,
      note,
    ),
  estimateReviewed: ({ repairId, note }, { of }) => because(`Estimate of ${of(repairId)} reviewed`, note),
  bandsStated: ({ when, repairs, car }, { of }) => {
    const likely = car === null ? '' : `; the car ${bandWords(car)}`
    const said = repairs.map((band) => `${of(band.repairId)} ${bandWords(band)}`)
    return `Said when ${when}, at or under with 50 and 80 %: ${shortList(said)}${likely}`
  },
  variationRaised: ({ title, payer, lines, why }) =>
    because(
      `Variation '${title}' put to the ${payer}, ${hoursWords(lines.reduce((sum, { hours }) => sum + hours, 0))}`,
      why,
    ),
  variationDecided: ({ variationId, decision, changed, how, note }, { of }) => {
    const other =
      changed === null
        ? ''
        : ` with changes, ${hoursWords(changed.lines.reduce((sum, { hours }) => sum + hours, 0))}`
    return because(`Variation '${of(variationId)}' ${decision}${other}, by ${how}`, note)
  },
  declinedSettled: ({ variationId, choice, reason }, { of }) =>
    because(`Declined '${of(variationId)}': ${choice}`, reason),
  closedAsFound: ({ repairId, protection, answer }, { of }) =>
    because(`${of(repairId)} closed as found; protection: ${protection}`, answer),
  costsSet: ({ costs }, { money }) =>
    `Costs estimated: ${plural('line', costs.length)}, ${money(costs.reduce((sum, { amount }) => sum + amount, 0))}`,
  costTakenOff: ({ costId }, { of }) => `${of(costId)} taken off the estimate: it is not needed`,
  costSpent: ({ name, kind, amount, date }, { day, money }) =>
    `${name} (${kind}) bought for ${money(amount)} on ${day(date)}`,
  reportIssued: ({ week, title }) => `Owner report '${title}' issued for ${weekOfYear(week)}`,

  clockStarted: ({ personId, on, hotWork }, { of, targets }) =>
    `Clock of ${of(personId)} started on ${targets(on)}${hotWork ? ', hot work' : ''}`,
  clockStopped: ({ entryId, end, countsTo, overtime, watchMinutes }, { entry, moment }) => {
    const late =
      Date.parse(countsTo) < Date.parse(end) ? `, counts to ${moment(countsTo)} until confirmed` : ''
    const over = overtime ? ', overtime confirmed' : ''
    const watch = watchMinutes === null ? '' : `, fire watch of ${watchMinutes} minutes begun`
    return `Clock stopped on ${entry(entryId)}${late}${over}${watch}`
  },
  clockConfirmed: ({ entryId, end, reason }, { entry, moment }) =>
    because(`Clock on ${entry(entryId)} confirmed to ${moment(end)}`, reason),
  timeLogged: ({ personId, on, time, cause, note }, { of, targets, ...names }) => {
    const rework = cause === null ? '' : `, rework: ${cause}`
    return because(`${of(personId)}: ${timeWords(time, names)} on ${targets(on)}${rework}`, note)
  },
  timeCorrected: ({ personId, on, time, reason }, { of, targets, ...names }) =>
    because(`Entry of ${of(personId)} corrected to ${timeWords(time, names)} on ${targets(on)}`, reason),
  watchCompleted: ({ entryId, note }, { entry }) =>
    because(`Fire watch completed after ${entry(entryId)}`, note),

  bayBooked: ({ bayId, from, to }, { of, days }) => `Booked in ${of(bayId)}, ${days(from, to)}`,
  bookingChanged: ({ bayId, from, to }, { of, days }) => `Booking changed to ${of(bayId)}, ${days(from, to)}`,
  bookingCancelled: ({ reason }) => because('Booking cancelled', reason),
  shellMoved: ({ bayId, fixture, note }, { of }) => because(`Moved to ${of(bayId)}, on ${fixture}`, note),
  shellSentAway: ({ firmId, what, expected }, { of, day }) =>
    because(`Sent away to ${of(firmId)}, expected back ${day(expected)}`, what),
  shellReturned: ({ bayId, tookBack, uncovered, reason }, { of, target }) => {
    const undone = tookBack.map((each) => target({ ...each, kind: 'gate' }))
    const lost = undone.length === 0 ? 'no gate taken back' : `taken back: ${shortList(undone)}`
    const found = uncovered === '' ? '' : `; uncovered: ${uncovered}`
    return because(`Back in ${of(bayId)}, ${lost}${found}`, reason)
  },

  workPinned: (pin, { of, target, day }) => {
    const people = pin.people.length === 0 ? '' : ` to ${joinWords(pin.people.map((id) => of(id)))}`
    const date = pin.day === null ? '' : ` on ${day(pin.day)}`
    return `${target(pin.target)} pinned${people}${date}`
  },
  workUnpinned: (pin, { target }) => `${target(pin.target)} no longer pinned`,
  leftSaid: (said, { target }) =>
    said.hours === 0
      ? `${target(said.target)}: nothing left to do but the signature`
      : `${target(said.target)}: still to do ${hoursWords(said.hours)}`,
  decisionExpected: ({ variationId, expected }, { of, day }) =>
    `Answer to '${of(variationId)}' expected on ${day(expected)}`,
  fixturePlanned: ({ fixture }) =>
    fixture === null ? 'No fixture planned' : `Structural work planned on a ${fixture}`,
  planningSet: ({ moveMinutes, movePeople, decisionDays, frozenDays, takeByItself }) =>
    `Planning set: a move takes ${plural('minute', moveMinutes)} and ${plural('person', movePeople, 'people')}, a decision ${plural('day', decisionDays)}; ${plural('day', frozenDays)} kept, ${takeByItself ? 'later changes taken by themselves' : 'changes taken by the manager'}`,
  fixturesSet: ({ counts }) =>
    `Fixtures counted: ${joinWords(FEW_FIXTURES.map((fixture) => `${fixture} ${counts[fixture] ?? 'not limited'}`))}`,
  overtimeSet: ({ people, from, to, weekdays, span }, { of, days }) =>
    `Overtime of ${joinWords(people.map((id) => of(id)))}, ${weekdaysWords(weekdays)} ${span.from} to ${span.to}, ${days(from, to)}`,
  overtimeCancelled: () => 'Overtime cancelled',
  planTaken: ({ cars, cause }, { of }) =>
    because(`Plan of ${plural('car', cars.length)} taken`, nameIdsInWords(cause, of)),
}

export const SAFETY_WORDS = {
  bracing: { stands: 'Shell braced', ended: 'Bracing taken off' },
  battery: { stands: 'Battery disconnected', ended: 'Battery connected again' },
  fuel: { stands: 'Fuel tank and lines safe', ended: 'Fuel tank and lines no longer stated as safe' },
} as const

export const FIT_UP_WORDS = { dry: 'dry fit', full: 'fit-up', check: 'gaps read again,' } as const

/** A list too long to read is cut to its first few; the fact itself holds them all. */
const MOST_LISTED = 4

function shortList(words: readonly string[]): string {
  const shown = words.slice(0, MOST_LISTED).join('; ')
  const more = words.length - MOST_LISTED
  return more > 0 ? `${shown}; and ${more} more` : shown
}

function shownWords(
  serves: PayloadOf<'photoAttached'>['serves'],
  { of, target }: Pick<RecordNames, 'of' | 'target'>,
): string {
  const shown = serves.map((each) => {
    if (each.what === 'car') return 'the car'
    if (each.what === 'task') return of(each.taskId)
    const layer = each.layerId === null ? '' : ` (${of(each.layerId)})`
    return `${target({ ...each, kind: 'gate' })}, ${each.shows}${layer}`
  })
  return shortList(shown)
}

const because = (what: string, reason: string): string => (reason === '' ? what : `${what}: ${reason}`)

/** '2026-W07' is week 7 of 2026. */
function weekOfYear(week: string): string {
  const [year, number] = week.split('-W')
  return `week ${Number(number)} of ${year}`
}

const bandWords = ({ p50, p80 }: { readonly p50: number; readonly p80: number }): string =>
  `${fixed(p50, 1)} and ${fixed(p80, 1)} h`

function movedWords(moves: PayloadOf<'repairSplit'>['moves']): string {
  const moved = moves.reduce((sum, { hours }) => sum + hours, 0)
  return moved === 0 ? 'no hours moved' : `${hoursWords(moved)} moved`
}

function timeWords(
  time: PayloadOf<'timeLogged'>['time'],
  { day, moment }: Pick<RecordNames, 'day' | 'moment'>,
): string {
  if (time.kind === 'day') return `${hoursWords(time.hours)} on ${day(time.date)}`
  return `${moment(time.start)} to ${moment(time.end)}`
}
