/** Languages that an owner's week can be written in (ISO 639-1), in the order in which they are offered. */
export const LANGUAGE_CODES = ['en', 'de'] as const
export type LanguageCode = (typeof LANGUAGE_CODES)[number]
