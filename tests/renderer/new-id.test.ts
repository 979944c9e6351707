import { describe, expect, test } from 'vitest'
import { carIdSchema } from '../../domain/ids.ts'
import { bytesToUuid, newId } from '../../renderer/parts/form/new-id.ts'

describe('an id made by a screen', () => {
  test('is one that the domain takes', () => {
    expect(carIdSchema.safeParse(newId()).success).toBe(true)
  })

  test('is a version 4 UUID of its random bytes (RFC 9562, 5.4) where the browser makes none itself', () => {
    // RFC 9562, A.3 (from memory), before and after: version and variant bits are set, the others kept.
    const bytes = Uint8Array.from('919108f752d133205bacf847db4148a8'.match(/../g) ?? [], (byte) =>
      Number.parseInt(byte, 16),
    )
    expect(bytesToUuid(bytes)).toBe('919108f7-52d1-4320-9bac-f847db4148a8')
  })
})
