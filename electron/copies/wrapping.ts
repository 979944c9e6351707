import type { Transform } from 'node:stream'
import type { Sealing } from '../../domain/copies/copy-shapes.ts'

/** How what is copied lies on the disk: as it is, or sealed. */
export interface Wrapping {
  /** Null where it lies as it is. */
  readonly sealing: Sealing | null
  /** The name of a kept file, 64 hexadecimal digits. */
  readonly nameOf: (sha256: string) => string
  /** Bytes on the disk for so many bytes of content. */
  readonly sizeOf: (bytes: number) => number
  /** Turn content into what lies on the disk. @param name binds it to its place */
  readonly wrap: (name: string) => readonly Transform[]
  /** Turn it back. @throws through the stream where it is not what was written */
  readonly unwrap: (name: string) => readonly Transform[]
}

/** For copies that everybody can read. */
export const AS_IT_IS: Wrapping = {
  sealing: null,
  nameOf: (sha256) => sha256,
  sizeOf: (bytes) => bytes,
  wrap: () => [],
  unwrap: () => [],
}
