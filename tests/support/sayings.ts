import { DECISIONS, FINDING_KINDS, GRADES, PAYERS, REWORK_CAUSES } from '../../domain/facts/shapes.ts'
import { HOLD_CODES, SHOWS } from '../../domain/facts/work-facts.ts'
import { GATES } from '../../domain/gates.ts'
import type { OwnerLanguage } from '../../domain/language/owner-language.ts'
import { planFaultSchema } from '../../domain/plan/plan.ts'
import { ELSEWHERE_CHANGES } from '../../domain/report/week-expected.ts'
import type { MarkKind } from '../../domain/views/shared-views.ts'

/** Every message of a language with everything that it may be asked for; what people type is 'Xx'. */
export function sayings(say: OwnerLanguage): readonly string[] {
  const [name, reason, day] = ['Xx', 'Xx', say.figures.day('2026-11-24', 2026)]
  const counts = [1, 2, 13]
  const backs = [true, false].map((isOver) => ({ day, isOver }))
  const { opening, needs, found, done, trouble, decided, stands, hours, know, next, ready, causes } = say
  const passed = GATES.flatMap((gate) =>
    [true, false].flatMap((is) =>
      (['protective', 'outer', 'temporary', null] as const).flatMap((coat) =>
        (['new', 'treated', 'kept'] as const).map((metal) => ({
          gate,
          drainsAsked: is,
          hasManyLayers: is,
          metal,
          coat,
        })),
      ),
    ),
  )
  const asked = { name, day, reason }
  return [
    ...textsIn([say.letter, opening, needs, found, done, trouble, decided, stands, hours, know, next, ready]),
    ...textsIn([causes, say.drawing, say.paper]),
    say.letter.title(name, '12'),
    say.letter.greeting(name),
    say.letter.corrects(2),
    ...[true, false].flatMap((isWarranty) =>
      [null, 0, ...counts].map((repairs) => opening.first({ isWarranty, day, repairs })),
    ),
    ...counts.flatMap((count) => [
      opening.did([opening.steps(count, count), opening.tasks(count), opening.tookBack(count)]),
      opening.did([opening.found(count), opening.worked(say.figures.hours(count))]),
      opening.decisions(count),
      trouble.treatmentUndid(count, reason),
      stands.steps(count, 8),
      ready.moved(day, count),
      ready.moved(day, -7 * count),
      causes.listed(count),
      causes.unlisted(count),
      causes.known(count),
      found.cameOn(Array.from({ length: count }, () => name)),
      needs.estimateWaits(
        say.figures.hours(count),
        Array.from({ length: count }, () => name),
      ),
      needs.takes(-count, [name], null),
      needs.takes(count, [], { low: 1, high: count + 1 }),
      trouble.badFit({ name, times: count, day, note: reason, goodOn: day }),
    ]),
    opening.quiet(opening.paused(day, '')),
    opening.quiet(opening.notBegun),
    ...backs.flatMap((back) => [opening.away(reason, back), next.away(back)]),
    opening.finished(day),
    opening.delivered(day),
    needs.asked(day),
    needs.ifNot(reason),
    ...GRADES.flatMap((grade) => [found.layerGrade(name, grade), found.metalThere(grade)]),
    found.layerNotSeen(name, null),
    found.layerNotSeen(name, reason),
    found.thinnest(say.figures.mm(0.6, 1), say.figures.mm(1.2, 1)),
    ...DECISIONS.flatMap((decision) => [found.layerPlan(name, decision), found.layerDone(name, decision)]),
    ...FINDING_KINDS.flatMap((kind) =>
      [null, name].map((layer) =>
        found.finding({ day, kind, layer, isAlike: layer === null, extent: reason }),
      ),
    ),
    found.needs(reason),
    found.cameOff(name, reason),
    found.split(null, name, reason),
    ...passed.map((each) => done.onDay(day, [each])),
    done.onDay(day, passed.slice(0, 30)),
    done.people([name, name]),
    ...[...GATES, null].map(done.workedOn),
    ...GATES.flatMap((gate) => [
      done.notNeeded(gate, reason),
      stands.next(gate),
      next.aim(name, gate),
      trouble.gateTakenBack({ ...asked, gate, cause: 'fit', isDoneAgain: true }),
      know.setAside({ ...asked, gate, code: 'order' }),
      ...SHOWS.map((shows) => say.captions.shown(shows, gate)),
    ]),
    done.tasksDone([{ name, by: [name, name], day }]),
    done.tasksGoing([{ name, by: [], day: null }]),
    done.wentTo(name, day, reason),
    done.backExpected(day),
    done.cameBack(name, day),
    ...REWORK_CAUSES.flatMap((cause) => [
      trouble.taskTakenBack({ ...asked, cause }),
      trouble.rework(say.figures.hours(2), [[cause, say.figures.hours(2)]]),
    ]),
    trouble.rework(
      say.figures.hours(2),
      REWORK_CAUSES.map((cause) => [cause, say.figures.hours(1)]),
    ),
    trouble.rework(say.figures.hours(2), []),
    trouble.badPart(name, reason),
    ...PAYERS.flatMap((payer) => [
      decided.accepted(payer, say.figures.hours(2), day),
      know.closedAsFound({ name, day, payer, answer: reason, protection: reason, isLoadBearing: true }),
      ...[true, false].map((is) =>
        decided.answered({
          payer,
          isAccepted: is,
          isChanged: is,
          title: name,
          day,
          hours: say.figures.hours(2),
        }),
      ),
    ]),
    decided.atOurCost(name, reason),
    decided.leftOut(name, reason),
    hours.waiting(say.figures.hours(2)),
    hours.capped(say.figures.hours(2)),
    hours.alsoPaid(['insurer']),
    hours.alsoPaid(['insurer', 'workshop']),
    hours.whole('12', '12'),
    hours.whole('12', '15'),
    ...[true, false].flatMap((is) => [hours.within(is), hours.mayExceed(is), hours.exceeds('3', is)]),
    hours.mayExceedCap(say.figures.hours(2)),
    hours.exceedsCap('3', say.figures.hours(2)),
    know.stopped(name, reason),
    know.closedOver(name, name),
    know.bothOpen(name, name),
    know.wasClosedAsFound(name, day),
    ...HOLD_CODES.flatMap((code) => [
      know.setAside({ ...asked, gate: 'opened', code }),
      next.held({ code, words: 'Xx.', other: name, byHand: { words: reason, day } }),
      next.held({ code, words: 'Xx.', other: null, byHand: null }),
    ]),
    next.waits(name, next.notEstimated),
    next.answer('owner', null),
    next.answer('insurer', name),
    ...(['needed', 'ordered', 'received', 'rejected', 'checked', 'fitted'] as const).flatMap((state) =>
      [null, ...backs].map((expected) => next.part({ name, state, expected })),
    ),
    next.part(null),
    next.task(name),
    next.curing(day),
    ready.by(day),
    ready.between(day, day),
    ready.countsOnAnswer(name, null),
    ready.countsOnAnswer(name, day),
    ready.causes([causes.redone, causes.held]),
    ready.noDate([]),
    ...planFaultSchema.shape.code.options.map((code) => ready.noDate([code])),
    ready.expectedBefore(day),
    ready.promised(day),
    ready.promisedAsBefore(day),
    ready.promisedBeforePause(day),
    ready.promiseSet(day),
    ready.promiseWithdrawn(day),
    ready.promiseMoved(day, day),
    ...ELSEWHERE_CHANGES.map((change) => causes.elsewhere[change]),
    causes.wentAway(reason),
    causes.agreed(name, say.figures.hours(2)),
    causes.atOurCost(name),
    causes.leftOut(name),
    causes.stopped(name),
    causes.raised(name),
    causes.badPart(name),
    causes.partMoved(name, 'later'),
    causes.partMoved(name, 'sooner'),
    ...(Object.keys(say.drawing.marks) as readonly MarkKind[]).map((mark) => say.drawing.marked(GATES, mark)),
    say.drawing.judgedBy(reason),
    say.drawing.left(say.figures.mm(0.6, 1)),
    say.drawing.cut(['Xx']),
    say.drawing.cut(['Xx', 'Xx']),
    say.drawing.legend.dashed(['off', 'not seen', 'gone']),
    say.paper.report(1, day),
    say.paper.recordHead('0123'),
    say.paper.page(1, 2),
    say.paper.gates('Xx'),
    say.paper.table('Xx'),
    say.paper.legend('Xx'),
    ...say.mail.paragraphs(name, name),
  ]
}

/** The messages that ask for nothing. */
function textsIn(value: unknown): readonly string[] {
  if (typeof value === 'string') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(textsIn) : []
}
