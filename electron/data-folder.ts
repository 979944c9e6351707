import { join, posix, win32 } from 'node:path'

/** What decides where data is kept; taken from the running machine except in tests. */
export interface Machine {
  readonly platform: NodeJS.Platform
  readonly env: Readonly<Record<string, string | undefined>>
  readonly home: string
}

/** The data folder when none is named: where the platform keeps a user's data. Absolute path. */
export function defaultDataFolder({ platform, env, home }: Machine): string {
  if (platform === 'win32')
    return win32.join(env.LOCALAPPDATA ?? win32.join(home, 'AppData', 'Local'), 'Panelwright')
  if (platform === 'darwin') return posix.join(home, 'Library', 'Application Support', 'Panelwright')
  const dataHome = env.XDG_DATA_HOME ?? ''
  return posix.join(
    posix.isAbsolute(dataHome) ? dataHome : posix.join(home, '.local', 'share'),
    'panelwright',
  )
}

/** The profile of the program's own window; under `private`, so that no copy holds its cookie. */
export function windowProfile(dataDir: string): string {
  return join(dataDir, 'private', 'window')
}
