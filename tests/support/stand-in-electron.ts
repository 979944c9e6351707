/* Loaded before the built main file: whoever asks for 'electron' gets the stand-in beside this file. */
import { registerHooks } from 'node:module'

registerHooks({
  resolve: (specifier, context, next) =>
    specifier === 'electron'
      ? { url: new URL('./electron-stand-in.ts', import.meta.url).href, shortCircuit: true }
      : next(specifier, context),
})
