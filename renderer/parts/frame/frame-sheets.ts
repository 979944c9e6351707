import { createContext, useContext } from 'react'

/** Sheets that open over any screen. */
export type FrameSheet = 'find' | 'keys'

export const FrameSheets = createContext<(sheet: FrameSheet) => void>(() => undefined)

/** Opens the search or the keyboard map from anywhere. */
export const useFrameSheets = (): ((sheet: FrameSheet) => void) => useContext(FrameSheets)
