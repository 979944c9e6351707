import { execFileSync } from 'node:child_process'
import process from 'node:process'
import { expect, test } from 'vitest'

const module = new URL('../../electron/hold-memory.ts', import.meta.url).href

/** What a program of its own answers, in bytes: some statements before, and what it says in the end. */
function bytesOf(first: string, then: string): number {
  const program = `
    import v8 from 'node:v8'
    import { holdMemory } from '${module}'
    ${first}
    ${then}`
  return Number(
    execFileSync(process.execPath, ['--input-type=module', '--eval', program], { encoding: 'utf8' }),
  )
}

const MIB = 1024 ** 2

test('what is kept for young objects grows to 16 MiB and no further, where it would grow to several times as much', () => {
  /** After much more has survived in it than it could ever hold. */
  const youngBytes = `
    const kept = []
    for (let number = 0; number < 400_000; number += 1) kept.push({ number, in: [number] })
    const spaces = v8.getHeapSpaceStatistics()
    console.log(kept.length && spaces.find((space) => space.space_name === 'new_space').space_size)`
  expect(bytesOf('holdMemory()', youngBytes)).toBe(16 * MIB)
  expect(bytesOf('', youngBytes)).toBeGreaterThan(32 * MIB)
})

test('what nobody holds any more is let go before it is as much as what is held', () => {
  /** Some 50 MB are held, of which each part is exchanged again and again when it is old. */
  const mostBytes = `
    const held = []
    let most = 0
    for (let number = 0; number < 3_000_000; number += 1) {
      held[number % 500_000] = { number, in: [number], beside: [number] }
      if (number % 10_000 === 0) most = Math.max(most, v8.getHeapStatistics().used_heap_size)
    }
    console.log(most)`
  const [held, left] = [bytesOf('holdMemory()', mostBytes), bytesOf('', mostBytes)]
  expect(held).toBeLessThan(0.6 * left)
})
