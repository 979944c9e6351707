import { expect, test } from 'vitest'
import { lastNumber, readFacts } from '../../db/journal.ts'
import { readAllCars } from '../../db/reads.ts'
import { rehearseCommands } from '../../db/rehearse-commands.ts'
import { carIdSchema } from '../../domain/ids.ts'
import { carFromFacts } from '../../domain/state/car-state.ts'
import { carPayload, createWorkshop } from '../support/workshop.ts'

test('a rehearsal says of each command what it would be answered after those before it, and records nothing', () => {
  const workshop = createWorkshop()
  const carId = workshop.addCar('Larkspur 4', 'S-101')
  const revision = lastNumber(workshop.db)
  const commands = [
    workshop.command('addNote', { text: 'On the car that is there.' }, { carId }),
    workshop.command('addCar', carPayload('Teasel', 'S-102')),
    workshop.command('addCar', carPayload('Yarrow', 'S-102')),
    workshop.command('addNote', { text: '' }, { carId }),
    workshop.command('addNote', { text: 'On the new one.' }, { carId: carIdSchema.parse('car-s-102') }),
  ]
  const requests = commands.map((command) => ({ command, device: null, second: null, now: workshop.now }))
  expect(rehearseCommands(workshop.db, requests).map((refusal) => refusal?.code ?? 'fine')).toEqual([
    'fine',
    'fine',
    'already',
    'bad-input',
    'fine',
  ])
  expect(lastNumber(workshop.db)).toBe(revision)
  expect(readAllCars(workshop.db)).toEqual([carFromFacts(readFacts(workshop.db, carId))])
})
