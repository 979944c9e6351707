import type { Tone } from '../../domain/drawing/shapes.ts'

/**
 * The light look on white paper (renderer/look/tokens.css; a test keeps the two together). A drawing's fine line is the
 * look's 'edge', as on the screen.
 */
export const paperTones: Readonly<Record<Tone, string>> = {
  ink: '#1c2226',
  quiet: '#444b50',
  line: '#767a76',
  sheet: '#ffffff',
  steel: '#c9cfd0',
  primer: '#cdd9c6',
  coat: '#6c7f55',
  sealer: '#b8933a',
  rust: '#a9683e',
  accent: '#b23c17',
  passed: '#1f5b60',
}

/** Fine rules between parts of a page. */
export const RULE = '#cbc6b8'
/** Ground of what the owner must answer. */
export const ACCENT_TINT = '#f8ebe4'
/** Text in the accent: 7:1 on white and on the tint. */
export const ACCENT_INK = '#86300a'
