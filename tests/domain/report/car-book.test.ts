import { describe, expect, it } from 'vitest'
import { carBook } from '../../../domain/report/car-book.ts'
import { NOTHING_MORE } from '../../../domain/report/file-choices.ts'
import { buildCar, onGate, ownerId, visitId } from '../../support/car-builder.ts'
import { bookOn, chapterLines, wordsOfBook } from '../../support/car-book.ts'
import { createScene } from '../../support/scene.ts'
import { buildWorkshop, nameOf } from '../../support/workshop-builder.ts'

describe('the title page and what is said of the book', () => {
  it('names the car, its shell, the workshop, the day and the head of the chain', () => {
    const book = bookOn(buildCar().repair('Boot floor').facts())
    expect(book).toMatchObject({
      car: 'Dunmere Saloon',
      shell: 'Shell 0412',
      body: 'Saloon of 1964',
      workshop: 'Harrow Lane',
      written: 'Mon 28 Dec 2026',
      head: '0123456789abcdef'.repeat(4),
    })
    expect(book.about[0]).toBe(
      'This book tells what Harrow Lane found, decided and did on the shell of this car: 1 repair, 0 finished, and 0 photos.',
    )
    expect(book.cautions).toEqual([
      'This book informs: it says what was found and done. It certifies nothing.',
    ])
  })

  it('says what is withheld and how it can be checked all the same, and nothing of it when all is ticked', () => {
    const facts = buildCar().facts()
    expect(bookOn(facts).withheld).toEqual([
      'Names and addresses of the owner and of other payers',
      'Prices and rates',
      'The hours that people worked',
    ])
    expect(bookOn(facts).verify.join(' ')).toContain('What is withheld stays in the chain as digests')
    const whole = bookOn(facts, { choices: { contacts: true, prices: true, hours: true } })
    expect(whole.withheld).toEqual([])
    expect(whole.verify.join(' ')).not.toContain('withheld')
  })

  it('is null without a car', () => {
    const input = {
      facts: [],
      head: '',
      workshop: buildWorkshop(),
      nameOf,
      contactOf: () => null,
      choices: NOTHING_MORE,
      now: 0,
    }
    expect(carBook(input)).toBeNull()
  })
})

it('a car that was brought in says where its record began', () => {
  const digest = 'c'.repeat(64)
  const car = buildCar().at('2026-12-01T09:00').add('carBroughtIn', {
    from: 'Mill Row Panels',
    head: digest,
    lines: 40,
    withheld: 0,
    leftOut: 0,
    journal: digest,
    manifest: digest,
  })
  expect(chapterLines(bookOn(car.facts()), 'The car')).toContain(
    'Brought in with its file from Mill Row Panels on Tue 1 Dec 2026 by Mara: the first 40 lines of its record were written down there, and taken over here on that day.',
  )
})

describe('the order in which a car closes', () => {
  it('goes from the inside out, and names what lies behind what', () => {
    const scene = createScene()
    for (const name of ['Inner sill', 'Sill', 'Boot floor']) scene.repair(name)
    scene.cover('Sill', 'Inner sill')
    expect(chapterLines(bookOn(scene.driver.facts), 'How it closes')).toEqual([
      'Which metal covers which',
      '',
      'A repair is closed only when everything that it covers is finished. From the inside out the metal goes back in this order:',
      'First, innermost: Inner sill',
      'Then: Sill',
      'Nothing covers Boot floor, and it covers nothing.',
      'Inner sill, not begun',
      'Sill, not begun',
      'Boot floor, not begun',
      'What lies behind what',
      'Inner sill: behind Sill',
    ])
  })
})

describe('what leaves only when it is ticked', () => {
  const story = () =>
    buildCar()
      .repair('Boot floor')
      .agree('Boot floor')
      .at('2026-11-23T08:00')
      .log('monday', 'Joss', { kind: 'day', date: '2026-11-23', hours: 6.5 }, [
        onGate('Boot floor', 'opened'),
      ])
      .log('tuesday', 'Joss', { kind: 'day', date: '2026-11-24', hours: 1.25 }, [
        onGate('Boot floor', 'opened'),
      ])
      .add('costSpent', {
        spendingId: 'spending-steel' as never,
        visitId: visitId('first'),
        repairId: null,
        costId: null,
        kind: 'material',
        name: 'Steel sheet',
        date: '2026-11-20',
        amount: 3_990,
        payer: 'owner',
      })
      .pass('Boot floor', 'opened')
      .facts()
  const contact = {
    name: 'Ada Vale',
    phone: '0100 200',
    email: 'ada@example.org',
    address: '1 Mill Row\nHarrow',
  }
  const input = {
    nameOf: (id: string) => (id === ownerId ? 'Ada Vale' : nameOf(id)),
    contactOf: () => contact,
  }

  it('is in no word of a book with nothing ticked, while the record counts every line', () => {
    const book = bookOn(story(), input)
    const words = wordsOfBook(book).join('\n')
    for (const secret of ['Ada', 'Vale', '0100', 'example.org', 'Mill Row', '39.90', '6.5 h', '1.25'])
      expect(words).not.toContain(secret)
    expect(words).toContain('for the owner')
    expect(chapterLines(book, 'The whole record')).toContain(
      `${story().length - 3} | – | – | 2 lines withheld (hours), ${story().length - 3} and ${story().length - 2}.`,
    )
    expect(book.chapters.map(({ title }) => title)).not.toContain('Hours worked')
  })

  it('is all there when it is ticked', () => {
    const book = bookOn(story(), { ...input, choices: { contacts: true, prices: true, hours: true } })
    const words = wordsOfBook(book).join('\n')
    for (const told of ['Ada Vale, 1 Mill Row, Harrow, 0100 200, ada@example.org.', '€39.90'])
      expect(words).toContain(told)
    expect(chapterLines(book, 'Hours worked')).toEqual([
      '2 entries',
      '',
      '7.75 h of work are written down on this car.',
      'Mon 23 Nov 2026 | Joss | Boot floor: opened | 6.50 h',
      'Tue 24 Nov 2026 | Joss | Boot floor: opened | 1.25 h',
    ])
    expect(words).not.toContain('withheld')
  })

  it.each([
    ['contacts', 'Ada Vale', ['39.90', '6.50 h']],
    ['prices', '€39.90', ['Ada Vale', '6.50 h']],
    ['hours', '6.50 h', ['Ada Vale', '39.90']],
  ] as const)('leaves by itself: %s', (choice, told, kept) => {
    const words = wordsOfBook(
      bookOn(story(), { ...input, choices: { ...NOTHING_MORE, [choice]: true } }),
    ).join('\n')
    expect(words).toContain(told)
    for (const secret of kept) expect(words).not.toContain(secret)
  })
})
