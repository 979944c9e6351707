import { english } from './english.ts'
import { german } from './german.ts'
import type { LanguageCode } from './language-codes.ts'
import type { OwnerLanguage } from './owner-language.ts'

/** Another language is one file of its own, its code in `language-codes.ts` and its line here. */
export const languages: Readonly<Record<LanguageCode, OwnerLanguage>> = { en: english, de: german }
