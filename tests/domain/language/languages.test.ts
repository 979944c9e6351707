import { describe, expect, it, test } from 'vitest'
import { english } from '../../../domain/language/english.ts'
import { german } from '../../../domain/language/german.ts'
import { LANGUAGE_CODES } from '../../../domain/language/language-codes.ts'
import { languages } from '../../../domain/language/languages.ts'
import type { OwnerLanguage } from '../../../domain/language/owner-language.ts'
import { sayings } from '../../support/sayings.ts'

describe('figures, days and lists', () => {
  test('are written as each language writes them', () => {
    const written = ({ figures }: OwnerLanguage) => [
      figures.hours(12.5),
      figures.hours(1234.25),
      figures.hours(-0.01),
      figures.mm(0.75, 2),
      figures.day('2026-09-22', 2026),
      figures.day('2027-03-01', 2026),
      figures.moreOrLess(-2),
      figures.list(['a', 'b', 'c']),
      figures.list(['Sill, left', 'Scuttle']),
      figures.list(['Sill, left', 'b', 'c']),
      figures.andMore(3),
      figures.andMore(14),
      figures.quoted('x'),
    ]
    expect(written(english)).toEqual([
      '12.5 h',
      '1,234.3 h',
      '0.0 h',
      '0.75 mm',
      'Tue 22 Sep',
      'Mon 1 Mar 2027',
      '2.0 h less',
      'a, b and c',
      'Sill, left, and Scuttle',
      'Sill, left; b; and c',
      'and three more',
      'and 14 more',
      '‘x’',
    ])
    expect(written(german)).toEqual([
      '12,5 Std.',
      '1.234,3 Std.',
      '0,0 Std.',
      '0,75 mm',
      'Dienstag, 22. September',
      'Montag, 1. März 2027',
      '2,0 Std. weniger',
      'a, b und c',
      'Sill, left sowie Scuttle',
      'Sill, left; b sowie c',
      'und drei weitere',
      'und 14 weitere',
      '„x“',
    ])
  })

  test.each([
    ['2026-11-23', '2026-11-29', 'Week 1, 23 to 29 Nov 2026', 'Woche 1, 23. bis 29. November 2026'],
    [
      '2026-11-30',
      '2026-12-06',
      'Week 1, 30 Nov to 6 Dec 2026',
      'Woche 1, 30. November bis 6. Dezember 2026',
    ],
    [
      '2026-12-28',
      '2027-01-03',
      'Week 1, 28 Dec 2026 to 3 Jan 2027',
      'Woche 1, 28. Dezember 2026 bis 3. Januar 2027',
    ],
  ])('say the week from %s to %s', (monday, sunday, inEnglish, inGerman) => {
    expect(english.letter.subtitle(1, monday, sunday)).toBe(inEnglish)
    expect(german.letter.subtitle(1, monday, sunday)).toBe(inGerman)
  })
})

describe.each(LANGUAGE_CODES)('the language %s', (code) => {
  const said = sayings(languages[code])

  it('has a name of its own, and says every message for every gate, grade, cause and hold', () => {
    expect(languages[code].tag.startsWith(code)).toBe(true)
    expect(LANGUAGE_CODES.filter((each) => languages[each].name === languages[code].name)).toEqual([code])
    expect(said.filter((each) => each.trim() === '' || /undefined|null|NaN|\[object/.test(each))).toEqual([])
  })

  it('has no marks that no person would write', () => {
    expect(
      said.filter((each) => / {2}| [.,;:!?]|\.\.|(?<!Std)\.,|,\.|,,|;\.|:\.|;;|!\.|\?\./.test(each)),
    ).toEqual([])
  })
})

describe('German', () => {
  it('says nothing in English, in no message', () => {
    const words =
      /\b(the|this|that|of|and|it|its|is|are|we|our|you|your|for|with|not|what|which|after|before|week|hours?|days?|done|expected|agreed|repairs?|work|visit|shell|owner|opened|assessed|fabricated|sealed|primed|welded|painted|steps?|more|less|later|next|photo|page|report|outside|rust)\b/i
    expect(sayings(german).filter((each) => words.test(each))).toEqual([])
    expect(sayings(english).filter((each) => !words.test(each)).length).toBeLessThan(
      sayings(english).length / 4,
    )
  })

  it('says what the manager wrote by hand, and what is in the way, in words of its own', () => {
    const { held } = german.next
    const words = 'Second payment; expected Tue 1 Dec.'
    const byHand = { words: 'Zweite Zahlung fehlt.', day: 'Dienstag, 1. Dezember' }
    expect(held({ code: 'by hand', words, other: null, byHand })).toBe(
      'die Arbeit wird angehalten: Zweite Zahlung fehlt; erwartet am Dienstag, 1. Dezember.',
    )
    expect(held({ code: 'uncover first', words, other: 'Schweller, links', byHand: null })).toBe(
      'darüber liegt „Schweller, links“ und muss zuerst geöffnet werden.',
    )
    expect(english.next.held({ code: 'by hand', words, other: null, byHand })).toBe(
      'second payment; expected Tue 1 Dec.',
    )
  })

  it('counts one and many', () => {
    const { opening, found, stands, ready, trouble } = german
    expect([1, 2, 13].map((count) => opening.steps(count, count))).toEqual([
      'einen Arbeitsschritt an einer Reparatur abgeschlossen',
      'zwei Arbeitsschritte an zwei Reparaturen abgeschlossen',
      '13 Arbeitsschritte an 13 Reparaturen abgeschlossen',
    ])
    expect([1, 2].map(opening.decisions)).toEqual([
      'Eine Entscheidung wartet auf Sie: Bitte lesen Sie „Was wir von Ihnen brauchen“.',
      'Zwei Entscheidungen warten auf Sie: Bitte lesen Sie „Was wir von Ihnen brauchen“.',
    ])
    expect(found.cameOn(['A'])).toBe('Eine Reparatur kam hinzu: A.')
    expect(found.cameOn(['A', 'B'])).toBe('Zwei Reparaturen kamen hinzu: A und B.')
    expect([0, 1, 8].map((count) => stands.steps(count, 8))).toEqual([
      'Noch ist kein Schritt getan.',
      'Einer von acht Schritten ist getan.',
      'Acht von acht Schritten sind getan.',
    ])
    expect([1, -2, 7, 14].map((days) => ready.moved('Freitag', days).split(': ')[1])).toEqual([
      'Jetzt ist es einen Tag später.',
      'Jetzt ist es zwei Tage früher.',
      'Jetzt ist es eine Woche später.',
      'Jetzt ist es zwei Wochen später.',
    ])
    const fit = { name: 'Tür', day: 'Montag, 2. November', note: '', goodOn: null }
    expect([1, 2, 3, 4].map((times) => trouble.badFit({ ...fit, times }))).toEqual([
      'Tür: Die Passung war am Montag, 2. November nicht gut.',
      'Tür: Die Passung war zweimal, zuletzt am Montag, 2. November, nicht gut.',
      'Tür: Die Passung war dreimal, zuletzt am Montag, 2. November, nicht gut.',
      'Tür: Die Passung war viermal, zuletzt am Montag, 2. November, nicht gut.',
    ])
  })
})
