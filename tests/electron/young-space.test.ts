import { execFileSync } from 'node:child_process'
import process from 'node:process'
import { expect, test } from 'vitest'

const module = new URL('../../electron/young-space.ts', import.meta.url).href

/** Bytes of V8's space for young objects in a program of its own, after much more has survived in it than it could ever hold. */
function youngBytes(first: string): number {
  const program = `
    import v8 from 'node:v8'
    import { holdYoungSpace } from '${module}'
    ${first}
    const kept = []
    for (let number = 0; number < 400_000; number += 1) kept.push({ number, in: [number] })
    const spaces = v8.getHeapSpaceStatistics()
    console.log(kept.length && spaces.find((space) => space.space_name === 'new_space').space_size)`
  return Number(
    execFileSync(process.execPath, ['--input-type=module', '--eval', program], { encoding: 'utf8' }),
  )
}

test('what is kept for young objects grows to 16 MiB and no further, where it would grow to several times as much', () => {
  expect(youngBytes('holdYoungSpace()')).toBe(16 * 1024 * 1024)
  expect(youngBytes('')).toBeGreaterThan(32 * 1024 * 1024)
})
