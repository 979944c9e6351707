import { FIXTURES, type Fixture } from '../../../domain/facts/shapes.ts'

/** 'on the jig' */
export const standingWords: Readonly<Record<Fixture, string>> = {
  wheels: 'on its wheels',
  stands: 'on stands',
  jig: 'on the jig',
  rotisserie: 'on the rotisserie',
  dolly: 'on a dolly',
}

export const fixtureChoices = FIXTURES.map((value) => ({ value, words: standingWords[value] }))
