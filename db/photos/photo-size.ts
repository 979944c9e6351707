/** The sizes made of every photo, by their longest side in pixels; a smaller photo is never blown up. */
export const PHOTO_SIZES = {
  thumb: { longestSide: 320, format: 'webp' },
  screen: { longestSide: 1600, format: 'webp' },
  /** JPEG, as PDF takes it as it is; 1000 px are 127 mm at 200 dpi. */
  report: { longestSide: 1000, format: 'jpg' },
} as const

export type PhotoSize = keyof typeof PHOTO_SIZES

export const PHOTO_SIZE_NAMES = ['thumb', 'screen', 'report'] as const satisfies readonly PhotoSize[]
