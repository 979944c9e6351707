import type { Random } from '../support/random.ts'
import type { BadLine } from './bad-line.ts'
import type { Floor, Worker } from './device-floor.ts'
import type { MortalHost } from './device-host.ts'
import type { DeviceNet } from './device-net.ts'
import type { DevicePage } from './device-page.ts'
import type { DeviceScreen } from './device-screen.ts'
import type { Work } from './device-work.ts'

export interface DevicesRun {
  /** All of them, those with a browser included. */
  readonly devices: number
  readonly browsers: number
  readonly seconds: number
  readonly seed: number
}

/** A device without a screen. */
export interface PlainDevice {
  readonly worker: Worker
  readonly net: DeviceNet
  readonly line: BadLine
  readonly work: Work
  readonly random: Random
  readonly page: () => DevicePage
  /** Closes the app without a word and opens it again. */
  readonly reopen: () => void
  readonly deaths: () => number
}

export interface ScreenDevice {
  readonly worker: Worker
  readonly random: Random
  readonly line: BadLine
  readonly screen: DeviceScreen
}

export interface Living {
  readonly run: DevicesRun
  readonly floor: Floor
  readonly host: MortalHost
  readonly plain: readonly PlainDevice[]
  readonly screens: readonly ScreenDevice[]
  readonly random: Random
}
