import type { BookChapter, CarBook } from '../../domain/report/car-book-shapes.ts'
import { writeChapter } from './book-chapters.ts'
import { keepContents, writeContents } from './book-contents.ts'
import type { BookContext } from './book-context.ts'
import { writeFurniture } from './book-furniture.ts'
import { writeAbout, writeTitlePage } from './book-title.ts'

/**
 * Writes a whole book in one pass: photos go to the disk as they are drawn, pages stay in memory without them, so that
 * the contents and the number of pages can be put in at the end. The document is left to be ended.
 *
 * @returns how many pages it has
 */
export async function printBook(context: BookContext, book: CarBook): Promise<number> {
  await writeTitlePage(context, book)
  writeAbout(context, book)
  const contents = keepContents(context, book.chapters)
  const pages = new Map<BookChapter, number>()
  for (const chapter of book.chapters) pages.set(chapter, 1 + (await writeChapter(context, chapter)))
  writeContents(context, contents, (chapter) => pages.get(chapter) ?? 0)
  writeFurniture(context, book)
  return context.paper.doc.bufferedPageRange().count
}
