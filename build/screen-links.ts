import { basename } from 'node:path'
import type { Plugin } from 'vite'

/** Lies beside the page: by the name of a screen, the links that its page begins with. */
export const SCREEN_LINKS = 'screen-links.json'

/**
 * Notes what each screen's script imports and the styles of both, so that the host can name them in the page that it sends to
 * the address of that screen: the browser then fetches them with the first script and not after it has run. Vite's manifest names
 * only what a script imports itself, so that it would have to be followed as the bundle is here.
 */
export function noteScreenLinks(): Plugin {
  return {
    name: 'panelwright:note-screen-links',
    generateBundle(_, bundle) {
      const chunks = new Map(
        Object.values(bundle).flatMap((file) =>
          file.type === 'chunk' ? [[file.fileName, file] as const] : [],
        ),
      )
      const withImports = (name: string, found = new Set<string>()): ReadonlySet<string> => {
        if (found.has(name)) return found
        found.add(name)
        for (const each of chunks.get(name)?.imports ?? []) withImports(each, found)
        return found
      }
      const entry = [...chunks.values()].find(({ isEntry }) => isEntry)
      const known = withImports(entry?.fileName ?? '')
      const links: Record<string, string> = {}
      for (const chunk of chunks.values()) {
        const screen = /^(.+)-screen\.tsx$/.exec(basename(chunk.facadeModuleId ?? ''))?.[1]
        if (screen === undefined) continue
        const scripts = [...withImports(chunk.fileName)].filter((name) => !known.has(name))
        const styles = new Set(
          scripts.toReversed().flatMap((name) => [...(chunks.get(name)?.viteMetadata?.importedCss ?? [])]),
        )
        links[screen] = [
          ...scripts.map((name) => `<link rel="modulepreload" crossorigin href="/${name}">`),
          ...[...styles].map((name) => `<link rel="stylesheet" crossorigin href="/${name}">`),
        ].join('')
      }
      this.emitFile({ type: 'asset', fileName: SCREEN_LINKS, source: JSON.stringify(links) })
    },
  }
}
