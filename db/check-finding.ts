/** Something that `check` has found. */
export interface CheckFinding {
  /** 'fault': something is lost or was changed. 'note': harmless, such as a photo that was sent and never attached. */
  readonly severity: 'fault' | 'note'
  readonly what: string
  readonly meaning: string
  readonly todo: string
}

export function fault(what: string, meaning: string, todo: string): CheckFinding {
  return { severity: 'fault', what, meaning, todo }
}

export function note(what: string, meaning: string, todo: string): CheckFinding {
  return { severity: 'note', what, meaning, todo }
}

/** All is well: nothing is lost and nothing was changed. */
export function isClean(findings: readonly CheckFinding[]): boolean {
  return findings.every((finding) => finding.severity !== 'fault')
}

export const RESTORE =
  'Keep this folder as it is, and restore the newest copy that passes this check into an empty folder.'
