import { describe, expect, it, test } from 'vitest'
import type { PayloadOf } from '../../../domain/facts.ts'
import { attachmentIdSchema, costIdSchema, findingIdSchema, partyIdSchema } from '../../../domain/ids.ts'
import { bandSaid, hoursSaid, variationHours } from '../../../domain/report/hours-words.ts'
import { variationLetter } from '../../../domain/report/variation-letter.ts'
import { type CarBuilder, onGate, repairId, variationId, visitId } from '../../support/car-builder.ts'
import { blockLines } from '../../support/owner-report.ts'
import { found, inWork } from '../../support/report-cases.ts'
import { sure } from '../../support/varied.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

const now = Date.parse('2026-11-28T15:00:00Z')
const plate = costIdSchema.parse('cost-plate')
const channel = variationId('Inner channel')

const raise = (car: CarBuilder, over: Partial<PayloadOf<'variationRaised'>> = {}) =>
  car.add('variationRaised', {
    variationId: channel,
    visitId: visitId('first'),
    payer: 'owner',
    title: 'Inner channel, made new',
    why: 'The inner channel is holed over 240 mm.',
    ifNot: 'The new floor would end in thin metal.',
    findings: [],
    attachments: [],
    lines: [
      { target: onGate('Boot floor', 'fabricated'), hours: 6, low: 4, high: 11 },
      { target: onGate('Boot floor', 'welded'), hours: 1, low: 1, high: 2 },
    ],
    costs: [{ costId: plate, repairId: null, kind: 'material', name: 'Sheet 1 mm', amount: 4_000 }],
    ...over,
  })

const answer = (
  car: CarBuilder,
  decision: 'accepted' | 'declined',
  changed: PayloadOf<'variationDecided'>['changed'] = null,
) =>
  car
    .at('2026-11-26T09:00')
    .add('variationDecided', { variationId: channel, decision, changed, how: 'call', note: 'go on' })

const letterOf = (builder: CarBuilder, workshop = buildWorkshop()) => {
  const car = builder.car()
  return variationLetter({ car, variation: car.variations.get(channel)!, now, workshop, nameOf })
}
const linesUnder = (letter: ReturnType<typeof letterOf>, heading: string) =>
  letter.sections.find((section) => section.heading === heading)?.blocks.flatMap(blockLines) ?? []

describe('hours in words', () => {
  test.each([
    [0, 'no hours'],
    [0.5, 'half an hour'],
    [1, '1 hour'],
    [1.25, '1.25 hours'],
    [6, '6 hours'],
  ])('%d h are %s', (value, words) => expect(hoursSaid(value)).toBe(words))

  test.each([
    [{ low: 4, likely: 6, high: 11 }, 'most likely 6 hours; it may be as few as 4 or as many as 11'],
    [{ low: 0, likely: 1, high: 2.5 }, 'most likely 1 hour; it may be none at all or as many as 2.5'],
    [{ low: 6, likely: 6, high: 11 }, 'most likely 6 hours; it may be as many as 11'],
    [{ low: 6, likely: 6, high: 6 }, '6 hours'],
  ])('a band %o is %s', (band, words) => expect(bandSaid(band)).toBe(words))

  test.each([
    [
      { low: 4, likely: 6, high: 11 },
      'It takes more time than was agreed: most likely 6 hours; it may be as few as 4 or as many as 11.',
    ],
    [{ low: 1, likely: 1, high: 1 }, 'It takes 1 hour more than was agreed.'],
    [
      { low: -8, likely: -6, high: -3 },
      'It takes less time than was agreed: most likely 6 hours; it may be as few as 3 or as many as 8.',
    ],
    [
      { low: -1, likely: 2, high: 5 },
      'It takes more time than was agreed: most likely 2 hours; it may be 1 hour less or as many as 5 more.',
    ],
    [
      { low: -4, likely: -2, high: 0.5 },
      'It takes less time than was agreed: most likely 2 hours; it may be half an hour more or as many as 4 less.',
    ],
    [
      { low: -1, likely: 0, high: 1 },
      'In all it takes as many hours as were agreed: some steps take more, others less.',
    ],
  ])('what a variation of %o asks for', (band, words) => expect(variationHours(band)).toBe(words))
})

describe('a letter about a variation', () => {
  it('says to whom, about what, what it takes, what happens if not, and what is needed from the payer', () => {
    const car = raise(inWork()).add('decisionExpected', { variationId: channel, expected: '2026-12-04' })
    const letter = letterOf(car)
    expect(letter).toMatchObject({
      workshop: 'Harrow Lane',
      title: 'Inner channel, made new',
      subtitle: 'Dunmere Saloon, shell 0412. Asked on Mon 2 Nov',
      written: 'Sat 28 Nov 2026',
      greeting: 'Dear Owner,',
      opening:
        'We ask you to decide about work that goes beyond what was agreed on your Dunmere Saloon. Nothing of it is begun before you have answered.',
    })
    expect(letter.sections.map(({ heading }) => heading)).toEqual([
      'What we found',
      'What it takes',
      'What happens if it is not done',
    ])
    expect(linesUnder(letter, 'What it takes')).toEqual([
      'It takes more time than was agreed: most likely 7 hours; it may be as few as 5 or as many as 13.',
      'Making new metal and letting it in | 4.0 h | 6.0 h | 11.0 h',
      'Welding it shut | 1.0 h | 1.0 h | 2.0 h',
      'Together | 5.0 h | 7.0 h | 13.0 h',
      'Sheet 1 mm | €40.00 | €40.00 | €40.00',
    ])
    expect(letter.reply?.texts[0]).toContain('Please tell us by Fri 4 Dec what we may do.')
    expect(letter.reply?.choices).toHaveLength(3)
    expect(letter.cautions).toEqual([
      'This letter informs: it says what we found and what we would do about it. It certifies nothing. Amounts are without tax.',
    ])
  })

  it('names the money of the hours at the rates in force, and what it comes to', () => {
    const rates = { from: '2026-01-01', usual: 6_000, bySkill: [] }
    const letter = letterOf(
      raise(inWork()),
      buildWorkshop((add) => add('ratesSet', rates)),
    )
    expect(linesUnder(letter, 'What it takes').slice(-3)).toEqual([
      'The hours, at the rates of the day | €300.00 | €420.00 | €780.00',
      'Sheet 1 mm | €40.00 | €40.00 | €40.00',
      'Together | €340.00 | €460.00 | €820.00',
    ])
  })

  it('shows photos before words, and tells a finding once', () => {
    const car = found(found(inWork(), 'told'), 'untold').photo('hole-in-the-channel', [{ what: 'car' }])
    raise(car, {
      attachments: [attachmentIdSchema.parse('photo-hole-in-the-channel')],
      findings: [findingIdSchema.parse('finding-told')],
      why: 'On the flange: 120 mm along the flange.',
    })
    const told = letterOf(car)
    expect(told.sections[0]?.blocks.map(({ kind }) => kind)).toEqual(['plates', 'text'])
    expect(linesUnder(told, 'What we found')).toEqual(['On the flange: 120 mm along the flange.'])
    const other = raise(found(inWork(), 'untold'), { findings: [findingIdSchema.parse('finding-untold')] })
    expect(linesUnder(letterOf(other), 'What we found')).toEqual([
      'The inner channel is holed over 240 mm.',
      'Inner panel: corrosion, 120 mm along the flange. What it needs: a new flange, 150 mm long.',
    ])
  })

  it('cautions where the metal is load-bearing, and names the repair', () => {
    const lines = [sure(onGate('Sill, left', 'fabricated'), 3)]
    const { cautions } = letterOf(raise(inWork(), { lines, costs: [] }))
    expect(cautions[0]).toContain('signed off by a licensed inspector')
    expect(cautions[0]).toContain('Here this concerns: sill, left.')
    expect(cautions[1]).not.toContain('tax')
  })

  it('speaks to the insurer by name, and of less work as of less', () => {
    const car = inWork().visit('second', { insurerId: partyIdSchema.parse('party-harbour') })
    raise(car, {
      visitId: visitId('second'),
      payer: 'insurer',
      lines: [sure(onGate('Boot floor', 'fabricated'), -1)],
    })
    const letter = letterOf(car)
    expect(letter.greeting).toBe('To Harbour:')
    expect(letter.opening).toContain('less work than was agreed on the Dunmere Saloon')
    expect(linesUnder(letter, 'What it saves')[0]).toBe('It takes 1 hour less than was agreed.')
    expect(letter.reply?.choices[0]).toBe('Yes, leave it out as described.')
  })
})

describe('an answered letter', () => {
  it('prints the answer as it was given, and asks for nothing more', () => {
    const letter = letterOf(answer(raise(inWork()), 'accepted'))
    expect(letter.reply).toBeNull()
    expect(linesUnder(letter, 'What was decided')).toEqual([
      'You accepted it as it was asked on Thu 26 Nov, on the phone.',
      'What was said: Go on.',
    ])
  })

  it('says what was accepted instead of what was asked', () => {
    const changed = {
      lines: [{ target: onGate('Boot floor', 'fabricated'), hours: 4 }],
      costs: [{ costId: plate, amount: 3_000 }],
    }
    expect(linesUnder(letterOf(answer(raise(inWork()), 'accepted', changed)), 'What was decided')).toEqual([
      'You accepted it with changes on Thu 26 Nov, on the phone: 4 hours instead of 7 hours.',
      'What was said: Go on.',
      'Making new metal and letting it in | 6.0 h | 4.0 h',
      'Welding it shut | 1.0 h | 0.0 h',
      'Sheet 1 mm | €40.00 | €30.00',
    ])
  })

  it('keeps declined work as the decision of its payer, with what was chosen then', () => {
    const declined = answer(raise(inWork()), 'declined')
    expect(linesUnder(letterOf(declined), 'What was decided')[0]).toBe(
      'You declined it on Thu 26 Nov, on the phone. This stays on record as your decision.',
    )
    declined.add('declinedSettled', { variationId: channel, choice: 'less work', reason: 'a patch will do.' })
    expect(linesUnder(letterOf(declined), 'What was decided').at(-1)).toBe(
      'Less is done instead: a patch will do.',
    )
    const left = answer(raise(inWork()), 'declined').add('closedAsFound', {
      repairId: repairId('Boot floor'),
      variationId: channel,
      attachments: [],
      protection: 'wax',
      answer: 'leave it',
      cautionShown: true,
    })
    expect(linesUnder(letterOf(left), 'What was decided').at(-1)).toBe(
      'It was closed as found: the damage is still there.',
    )
  })
})
