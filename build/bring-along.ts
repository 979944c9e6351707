import { cpSync, existsSync, statSync } from 'node:fs'
import { basename, dirname, join, relative, resolve, sep } from 'node:path'
import type { Plugin } from 'vite'

const literalUrl = /new URL\(\s*'(\.{1,2}\/[^']+)',\s*import\.meta\.url,?\s*\)/g

/**
 * Puts beside the bundle whatever a module reaches by `new URL('…', import.meta.url)`: a TypeScript file (a worker)
 * becomes an entry of its own, any other file or folder (migrations, fonts) is copied under its own name. An address
 * inside dist/ stays an address inside dist/. So the same line works from source and from the bundle.
 *
 * @param onCopied told of each file and folder that is copied
 * @throws when the file is not there, or when two different ones have the same name
 */
export function bringAlong(root: string, onCopied: (path: string) => void = () => {}): Plugin {
  const copies = new Map<string, string>()
  return {
    name: 'panelwright:bring-along',
    enforce: 'pre',
    transform(code, id) {
      if (id.includes('/node_modules/') || !code.includes('import.meta.url')) return null
      return code.replace(literalUrl, (_whole, path: string) => {
        const target = resolve(dirname(id), path)
        const inDist = relative(join(root, 'dist'), target).split(sep).join('/')
        if (!inDist.startsWith('..')) return urlOf(`../${inDist}${path.endsWith('/') ? '/' : ''}`)
        if (!existsSync(target)) this.error(`${id}: there is nothing at ${path}`)
        const name = basename(target).replace(/\.ts$/, '.js')
        if ((copies.get(name) ?? target) !== target)
          this.error(`${id}: two different files are called ${name}`)
        if (!copies.has(name) && target.endsWith('.ts'))
          this.emitFile({ type: 'chunk', id: target, fileName: name })
        copies.set(name, target)
        return urlOf(`./${name}${path.endsWith('/') ? '/' : ''}`)
      })
    },
    writeBundle(options) {
      for (const [name, from] of copies) {
        if (from.endsWith('.ts')) continue
        onCopied(from)
        cpSync(from, join(options.dir ?? '', name), { recursive: statSync(from).isDirectory() })
      }
    },
  }
}

function urlOf(path: string): string {
  return `new URL(${JSON.stringify(path)}, import.meta.url)`
}
