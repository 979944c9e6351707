import { describe, expect, it } from 'vitest'
import { compile } from '../../../domain/plan/solve/compile.ts'
import { createLine } from '../../../domain/plan/solve/line.ts'
import { activity, planCar, planProblem } from '../../support/plan-problem.ts'

const SIZE = 70

/** Every other piece of work is of car 1; kinds of bay 0 and 1 take turns in pairs; 5 and 3 are placed first. */
const work = Array.from({ length: SIZE }, (_, index) =>
  activity({
    car: index % 2,
    bayKind: index % 4 < 2 ? 0 : 1,
    first: index === 5 ? 0 : index === 3 ? 1 : null,
  }),
)
const laid = () => {
  const line = createLine(compile(planProblem({ cars: [planCar(), planCar()], activities: work })))
  line.lay(Int32Array.from({ length: SIZE }, (_, place) => SIZE - 1 - place))
  return line
}
const inLine = ({ after }: ReturnType<typeof laid>): readonly number[] => {
  const found: number[] = []
  for (let next = after(-1); next >= 0; next = after(next)) found.push(next)
  return found
}

describe('the line of work', () => {
  it('is in the order of the list, behind what is placed first', () => {
    const line = laid()
    expect(inLine(line)).toEqual([])
    for (const each of [0, 3, 5, 33, 69]) line.add(each)
    expect(inLine(line)).toEqual([5, 3, 69, 33, 0])
    line.remove(5)
    line.remove(33)
    expect(inLine(line)).toEqual([3, 69, 0])
    line.add(68)
    expect(inLine(line)).toEqual([3, 69, 68, 0])
  })

  it('is without who sleeps until a bay of the kind is let go, the car is moved, or all are woken', () => {
    const line = laid()
    for (const each of [8, 9, 10, 11]) {
      line.add(each)
      line.sleep(each)
    }
    expect(inLine(line)).toEqual([])
    line.wakeFor([1])
    expect(inLine(line)).toEqual([11, 10])
    line.wakeCar(1)
    expect(inLine(line)).toEqual([11, 10, 9])
    line.remove(9)
    line.wakeFor([0])
    expect(inLine(line)).toEqual([11, 10, 8])
    line.sleep(11)
    line.wakeAll()
    expect(inLine(line)).toEqual([11, 10, 8])
    line.lay(Int32Array.from({ length: SIZE }, (_, place) => place))
    expect(inLine(line)).toEqual([])
  })
})
