import { bytesWords, plural } from '../text/words.ts'
import type { ListedCopy } from './copy-shapes.ts'

/** '9 cars, 214 photos, 12 reports and other files; 1.2 GB' */
export function copyWords({ content, bytes, number, isSealed }: ListedCopy): string {
  const what =
    content === null
      ? plural('journal line', number)
      : `${plural('car', content.cars)}, ${plural('photo', content.photos)}, ${plural('report or other file', content.otherFiles, 'reports and other files')}`
  return `${what}; ${bytesWords(bytes)}${isSealed ? '; sealed' : ''}`
}
