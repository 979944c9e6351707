import { bytesWords, plural } from '../text/words.ts'
import type { ListedCopy } from './copy-shapes.ts'

/** '9 cars, 214 photos, 12 reports and other files; 1.2 GB' */
export function copyWords({ content, bytes, number, isSealed }: ListedCopy): string {
  const what = content === null ? plural('journal line', number) : contentWords(content)
  return `${what}; ${bytesWords(bytes)}${isSealed ? '; sealed' : ''}`
}

function contentWords({ cars, photos, otherFiles }: NonNullable<ListedCopy['content']>): string {
  const others =
    otherFiles === 0 ? [] : [plural('report or other file', otherFiles, 'reports and other files')]
  return [plural('car', cars), plural('photo', photos), ...others].join(', ')
}
