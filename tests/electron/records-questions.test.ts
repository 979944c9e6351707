import { expect, test } from 'vitest'
import { personIdSchema } from '../../domain/ids.ts'
import { questions } from '../bench/records-views.ts'
import { tenYearsCar } from '../bench/ten-years-car.ts'
import { queriesOfRouter } from '../support/every-view.ts'

test('the bench of ten years has a question for every view, made of what was filled alone', () => {
  const cars = [0, 1, 2, 3].map(tenYearsCar)
  const filled = { cars, inWork: cars.slice(2), people: [personIdSchema.parse('person-one')] }
  const asked = questions.map(({ query, input }) => {
    for (const round of [0, 1, 2, 3, 44]) input(filled, round)
    return query
  })
  expect([...new Set(asked)].toSorted()).toEqual(queriesOfRouter().toSorted())
})
