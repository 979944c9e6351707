import type { DaySheetLine } from '../../domain/views/view-shapes.ts'
import { useSending } from '../parts/photos/use-sending.ts'
import { nextPhoto, ownPhotos, type NextPhoto, type PhotoWork } from '../parts/photos/photo-aim.ts'
import { usePhotoInputsOfCars, type PhotoInputs } from '../parts/photos/use-photo-inputs.tsx'

export interface LinePhotos extends Pick<PhotoInputs, 'inputs' | 'refusal'> {
  /** What a photo from this line shows: what its gate still asks for first. */
  readonly nextOf: (line: DaySheetLine) => NextPhoto
  readonly take: (line: DaySheetLine) => void
  /** How many of the line are still on this device. */
  readonly onTheirWay: (line: DaySheetLine) => number
}

/** The line's gate as photos are aimed at it; null for a task. */
export function photoWorkOf({ repairId, gate, photoAsks, section }: DaySheetLine): PhotoWork | null {
  if (repairId === null || gate === null) return null
  return { repairId, gate, asks: photoAsks, layers: section?.layers ?? [] }
}

/**
 * Photos from the lines of a day sheet. One camera input for all of them stands on the page itself: a line may go while
 * the camera is open, and its photo must not go with it.
 */
export function useLinePhotos(): LinePhotos {
  const sending = useSending()
  const { take, inputs, refusal } = usePhotoInputsOfCars()
  const nextOf = (line: DaySheetLine): NextPhoto => {
    const work = photoWorkOf(line)
    if (work !== null) return nextPhoto(work, sending)
    const { taskId } = line
    const serves = taskId === null ? { what: 'car' as const } : { what: 'task' as const, taskId }
    return { aim: { serves: [serves], caption: '' }, words: 'of the work' }
  }
  return {
    inputs,
    refusal,
    nextOf,
    take: (line) => take({ ...nextOf(line).aim, carId: line.carId }),
    onTheirWay: ({ repairId, taskId }) =>
      repairId === null
        ? sending.filter(({ serves }) =>
            serves.some((each) => each.what === 'task' && each.taskId === taskId),
          ).length
        : ownPhotos(repairId, sending).length,
  }
}
