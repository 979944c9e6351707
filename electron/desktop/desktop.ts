import type {
  App,
  BrowserWindow,
  BrowserWindowConstructorOptions,
  Dialog,
  MenuItemConstructorOptions,
  MessageBoxOptions,
  MessageBoxReturnValue,
  PowerMonitor,
  SaveDialogOptions,
  SaveDialogReturnValue,
  Screen,
  Session,
  Shell,
  WebContents,
} from 'electron'

/** The part of Electron that is used, so that the boot list can be checked without its runtime. */
export interface Desktop {
  readonly app: AppPart
  readonly dialog: Pick<Dialog, 'showErrorBox'>
  readonly screen: Pick<Screen, 'getAllDisplays' | 'getPrimaryDisplay'>
  /** A folder is shown in the system's file manager; nothing in it is opened or run. */
  readonly shell: Pick<Shell, 'showItemInFolder'>
  readonly powerMonitor: PowerPart
  readonly setMenu: (template: readonly MenuItemConstructorOptions[]) => void
  readonly openWindow: (options: BrowserWindowConstructorOptions) => OpenedWindow
}

export type AppPart = Pick<
  App,
  'setName' | 'setPath' | 'enableSandbox' | 'requestSingleInstanceLock' | 'whenReady' | 'on' | 'quit' | 'exit'
>
export type PowerPart = Pick<PowerMonitor, 'on'>

/** The window with what is asked in front of it. */
export interface OpenedWindow {
  readonly window: WindowPart
  readonly ask: (box: MessageBoxOptions) => Promise<MessageBoxReturnValue>
  readonly askWhere: (box: SaveDialogOptions) => Promise<SaveDialogReturnValue>
  readonly popUp: (template: readonly MenuItemConstructorOptions[]) => void
}

export type WindowPart = Pick<
  BrowserWindow,
  | 'loadURL'
  | 'show'
  | 'focus'
  | 'maximize'
  | 'isMinimized'
  | 'isMaximized'
  | 'restore'
  | 'getNormalBounds'
  | 'isDestroyed'
  | 'on'
> & {
  readonly webContents: ContentsPart
}
export type ContentsPart = Pick<
  WebContents,
  | 'on'
  | 'setWindowOpenHandler'
  | 'downloadURL'
  | 'getURL'
  | 'reload'
  | 'forcefullyCrashRenderer'
  | 'print'
  | 'printToPDF'
> & {
  readonly session: SessionPart
}
export type SessionPart = Pick<Session, 'setPermissionRequestHandler' | 'setPermissionCheckHandler'>

/** Above every box and window of the program. */
export const TITLE = 'Panelwright'
