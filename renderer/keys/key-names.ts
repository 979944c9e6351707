export const isMac = /Mac|iPhone|iPad/.test(navigator.platform)

/** In a window of its own there are no tabs that Ctrl and a figure would change. */
export const isOwnWindow = (): boolean =>
  navigator.userAgent.includes(' Electron/') || window.matchMedia('(display-mode: standalone)').matches

/** 'Mod+K' as it is written on the keys of this computer. */
export const keyName = (key: string): string =>
  isMac ? key.replace('Mod+', '⌘ ').replace('Alt+', '⌥ ').replaceAll('+', ' ') : key.replace('Mod+', 'Ctrl+')
