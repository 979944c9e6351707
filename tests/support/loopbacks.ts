import process from 'node:process'
import { test } from 'vitest'

/**
 * Whether each address from 127.0.0.1 to 127.255.255.255 is this computer: on macOS only the first one is, unless somebody adds
 * others by hand.
 */
export const hasLoopbacks = process.platform !== 'darwin'

/** `test`, skipped and counted as skipped where this computer has one loopback address alone. */
export const loopbacksTest = test.skipIf(!hasLoopbacks)
