import { createHash } from 'node:crypto'
import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import sharp from 'sharp'
import { build, type Plugin } from 'vite'

const root = fileURLToPath(new URL('..', import.meta.url))

/** The ground of the light screens. */
const PAPER = '#f4f1ea'
/** The icon's own ground, and its frame with it: a maskable icon gets its outline from the system. */
const ICON_PAPER = '#f6f1e6'
const FRAME = /<rect x="(52|66)" [^>]*\/>/g
/** So much smaller the drawing stays inside the circle that every system leaves of a maskable icon. */
const SAFE_SHARE = 0.9

/**
 * Makes built screens installable and able to open without the host: the manifest with its icons, and the service worker
 * with the exact list of the files of this version.
 *
 * @param folder the built screens
 * @param plugins of the service worker's build
 */
export async function makeInstallable(folder: string, plugins: readonly Plugin[] = []): Promise<void> {
  const files = readdirSync(join(folder, 'assets'))
    .toSorted()
    .map((name) => `/assets/${name}`)
  const page = readFileSync(join(folder, 'index.html'), 'utf8')
  const version = digestOf([page, ...files])
  const head = [
    `<meta name="screens-version" content="${version}">`,
    // Also the manifest is for paired devices only.
    '<link rel="manifest" href="/manifest.webmanifest" crossorigin="use-credentials">',
    '<link rel="apple-touch-icon" href="/icon-192.png">',
  ]
  writeFileSync(join(folder, 'index.html'), page.replace('</head>', `${head.join('\n    ')}\n  </head>`))
  writeFileSync(join(folder, 'manifest.webmanifest'), JSON.stringify(manifest, null, 2))
  await drawIcons(folder)
  await buildServiceWorker(folder, { version, files, plugins })
}

/** Names of files carry their own digests, and the page names the first of them. */
function digestOf(parts: readonly string[]): string {
  const digest = createHash('sha256')
  for (const part of parts) digest.update(`${part}\0`)
  return digest.digest('hex').slice(0, 16)
}

const manifest = {
  id: '/',
  name: 'Panelwright',
  short_name: 'Panelwright',
  description: 'The body shop’s work: gates, photos, hours',
  start_url: '/day-sheet',
  scope: '/',
  display: 'standalone',
  background_color: PAPER,
  theme_color: PAPER,
  icons: [
    { src: '/icon-192.png', sizes: '192x192', type: 'image/png', purpose: 'any' },
    { src: '/icon-512.png', sizes: '512x512', type: 'image/png', purpose: 'any' },
    { src: '/icon-maskable.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
  ],
}

async function drawIcons(folder: string): Promise<void> {
  const drawing = readFileSync(join(root, 'build', 'icon.svg'), 'utf8')
  const drawn = (svg: string, side: number) =>
    sharp(Buffer.from(svg)).resize(side, side).png({ compressionLevel: 9 })
  await drawn(drawing, 192).toFile(join(folder, 'icon-192.png'))
  await drawn(drawing, 512).toFile(join(folder, 'icon-512.png'))
  const picture = await drawn(drawing.replace(FRAME, ''), Math.round(512 * SAFE_SHARE)).toBuffer()
  await sharp({ create: { width: 512, height: 512, channels: 3, background: ICON_PAPER } })
    .composite([{ input: picture }])
    .removeAlpha()
    .png({ compressionLevel: 9 })
    .toFile(join(folder, 'icon-maskable.png'))
}

async function buildServiceWorker(
  folder: string,
  {
    version,
    files,
    plugins,
  }: {
    readonly version: string
    readonly files: readonly string[]
    readonly plugins: readonly Plugin[]
  },
): Promise<void> {
  await build({
    configFile: false,
    root,
    logLevel: 'warn',
    plugins: [...plugins],
    define: { SHELL_VERSION: JSON.stringify(version), SHELL_FILES: JSON.stringify(files) },
    build: {
      outDir: folder,
      emptyOutDir: false,
      copyPublicDir: false,
      target: 'es2024',
      rolldownOptions: {
        input: join(root, 'renderer', 'service-worker', 'service-worker.ts'),
        // One file of a fixed name: it is asked for by it, and its content tells the versions apart.
        output: { format: 'iife', entryFileNames: 'service-worker.js' },
      },
    },
  })
}
