import type { KeptFile } from './kept-file.ts'

/** What can put a finding right without touching the journal. */
export type Mend =
  /** The derived tables are made anew from the journal, all of them together. */
  | { readonly by: 'making the tables anew' }
  /** The sizes of these photos are made anew from their originals. */
  | { readonly by: 'making sizes'; readonly photos: readonly string[] }
  /** A file that nothing refers to, seen from the data folder, goes. */
  | { readonly by: 'removing'; readonly path: string }
  /** The file is taken from a copy of the workshop that has it whole. */
  | { readonly by: 'taking from a copy'; readonly file: KeptFile }

/** Something that `check` has found. */
export interface CheckFinding {
  /** 'fault': something is lost or was changed. 'note': harmless, such as a photo that was sent and never attached. */
  readonly severity: 'fault' | 'note'
  readonly what: string
  readonly meaning: string
  readonly todo: string
  /** Null where only people, or a restore, can put it right. */
  readonly mend: Mend | null
}

/** Something is lost or was changed. */
export function fault(what: string, meaning: string, todo: string, mend: Mend | null = null): CheckFinding {
  return { severity: 'fault', what, meaning, todo, mend }
}

/** Something harmless that people may wonder about. */
export function note(what: string, meaning: string, todo: string, mend: Mend | null = null): CheckFinding {
  return { severity: 'note', what, meaning, todo, mend }
}

/** All is well: nothing is lost and nothing was changed. */
export function isClean(findings: readonly CheckFinding[]): boolean {
  return findings.every((finding) => finding.severity !== 'fault')
}

/** What to do about a damaged file that copies have. */
export const TAKE_FROM_COPY = 'Let it be taken from a copy of the workshop that has it.'

/** What to do about what only a restore puts right. */
export const RESTORE =
  'Keep this folder as it is, and restore the newest copy that passes this check into an empty folder.'
