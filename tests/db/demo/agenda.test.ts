import { expect, test } from 'vitest'
import { createAgenda } from '../../../db/demo/agenda.ts'

test('an agenda runs in order of time, those of one moment as they were added, and what is added meanwhile', () => {
  const agenda = createAgenda()
  const done: string[] = []
  const clock: number[] = []
  agenda.add(20, () => done.push('late'))
  agenda.add(10, () => {
    done.push('first')
    agenda.add(15, () => done.push('added meanwhile'))
    agenda.add(10, () => done.push('same moment'))
  })
  agenda.add(10, () => done.push('second'))
  agenda.run(20, (at) => clock.push(at))
  expect(done).toEqual(['first', 'second', 'same moment', 'added meanwhile'])
  expect(clock).toEqual([10, 10, 10, 15])
  agenda.run(21, () => undefined)
  expect(done.at(-1)).toBe('late')
})
