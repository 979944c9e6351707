import type { ApiDeps } from './deps.ts'
import type { DeviceEnds } from './device-ends.ts'
import type { Revisions } from './revisions.ts'
import type { Sessions } from './sessions.ts'

/** What the calls share beside what the host gives. */
export interface ApiServices {
  readonly deps: ApiDeps
  readonly sessions: Sessions
  readonly revisions: Revisions
  readonly deviceEnds: DeviceEnds
}
