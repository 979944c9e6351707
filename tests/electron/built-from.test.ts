import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { readBuiltFrom } from '../../electron/built-from.ts'

test('the program says what the build was made from that lies beside it', () => {
  const file = new URL('../../dist/electron/built-from.json', import.meta.url)
  expect(readBuiltFrom()).toEqual(JSON.parse(readFileSync(file, 'utf8')))
  expect(readBuiltFrom().lock).toMatch(/^[0-9a-f]{64}$/)
})
