import { Readable } from 'node:stream'
import { buffer } from 'node:stream/consumers'
import { pipeline } from 'node:stream/promises'
import { setImmediate as turn } from 'node:timers/promises'
import { createHash } from 'node:crypto'
import { describe, expect, test } from 'vitest'
import { checkedStream } from '../../../electron/bag/checked-stream.ts'

const BYTES = Buffer.from('Boot floor before cutting')
const SHA256 = createHash('sha256').update(BYTES).digest('hex')
const told = (error: unknown) => new Error('another', { cause: error })

/** Long enough for all that happens by itself before anyone reads. */
async function leaveAlone(stream: Readable): Promise<Readable> {
  for (let turns = 0; turns < 20; turns++) await turn()
  return stream
}

describe('a checked stream', () => {
  test('hands on what is as it must be', async () => {
    const stream = await leaveAlone(checkedStream(Readable.from([BYTES]), SHA256, told))
    expect(await buffer(stream)).toEqual(BYTES)
  })

  test('that has failed before anyone reads tells its reader', async () => {
    const changed = () => leaveAlone(checkedStream(Readable.from([BYTES, BYTES]), SHA256, told))
    await expect(buffer(await changed())).rejects.toThrow('another')
    await expect(pipeline(await changed(), async (read) => void (await buffer(read)))).rejects.toThrow(
      'another',
    )
  })

  test('tells of content that cannot be read', async () => {
    const content = new Readable({ read: () => content.destroy(new Error('EIO')) })
    const stream = await leaveAlone(checkedStream(content, SHA256, told))
    await expect(buffer(stream)).rejects.toMatchObject({ cause: { message: 'EIO' } })
  })
})
