import { open } from 'node:fs/promises'
import { SNIFF_BYTES } from './sniff.ts'

/** The first bytes of a file, as many as `sniff` asks for. @throws the operating system's error */
export async function readHead(path: string): Promise<Uint8Array> {
  const file = await open(path, 'r')
  try {
    const { buffer, bytesRead } = await file.read(Buffer.alloc(SNIFF_BYTES), 0, SNIFF_BYTES, 0)
    return buffer.subarray(0, bytesRead)
  } finally {
    await file.close()
  }
}
