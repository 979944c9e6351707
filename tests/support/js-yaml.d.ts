/** The part that tests use; electron-builder brings the package along, its types are not here. */
declare module 'js-yaml' {
  export function load(text: string): unknown
}
