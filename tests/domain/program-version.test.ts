import { expect, test } from 'vitest'
import { PROGRAM_VERSION } from '../../domain/program-version.ts'
import manifest from '../../package.json' with { type: 'json' }

test('the version that the program says of itself is that of its package', () => {
  expect(PROGRAM_VERSION).toBe(manifest.version)
})
