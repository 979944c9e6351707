import type { BringInPreview } from '../../domain/bring-in/bring-in-preview.ts'
import type { CarId, CommandId, DeviceId, PersonId } from '../../domain/ids.ts'
import type { Result } from '../../domain/refusal.ts'

/** A car's file that has arrived and was verified; it is kept for a while under this id. */
export interface CameFile {
  readonly fileId: string
  readonly preview: BringInPreview
}

export interface BringInOrder {
  readonly fileId: string
  readonly commandId: CommandId
  readonly shellNumber: string | null
  readonly by: PersonId
  readonly device: DeviceId
}

export interface BroughtInCar {
  readonly carId: CarId
  /** Number of the journal's last line after it. */
  readonly revision: number
}

/** Takes cars' files from other workshops: received and verified first, then brought in by a manager's word. */
export interface BringInDesk {
  /** Writes it to the disk as it comes. */
  readonly receive: (body: AsyncIterable<Uint8Array>) => Promise<Result<CameFile>>
  readonly bringIn: (order: BringInOrder) => Promise<Result<BroughtInCar>>
  /** Photos that are stored so far; null for a file that is not kept. */
  readonly progress: (fileId: string) => { readonly done: number; readonly of: number } | null
  readonly drop: (fileId: string) => Promise<void>
}
