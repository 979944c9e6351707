import type { DialogProps } from './dialog-sheet.tsx'
import { onDemand } from '../frame/on-demand.tsx'

/** A sheet over the screen: holds the focus, closes with Escape, and from the bottom edge on a phone. */
export const Dialog = onDemand<DialogProps>(async () => (await import('./dialog-sheet.tsx')).DialogSheet)
