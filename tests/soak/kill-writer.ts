import type { PersonId } from '../../domain/ids.ts'
import type { Book, Writing } from './kill-book.ts'
import { createScreen, HostGone } from './kill-screen.ts'

/** A person at a screen of their own, who goes on where the last host was killed. */
export interface Writer {
  /**
   * Lets the screen in, signs the person in and writes, one request after the other, until there is nothing left to
   * write or the host is gone. What the last host did not answer is sent again first, under the same ids.
   *
   * @param answered told after each answer
   * @returns false when the host is gone
   */
  readonly write: (windowUrl: string, answered: () => void) => Promise<boolean>
  /** The same for what the last host did not answer, and no more. */
  readonly finish: (windowUrl: string) => Promise<boolean>
}

export interface WriterOptions {
  readonly personId: PersonId
  readonly code: string
  /** Sets the workshop up, and this person with it. */
  readonly first: Writing | null
  /** What is written next; null when there is nothing left. Called when all before it was answered. */
  readonly next: () => Promise<Writing | null>
}

export function createWriter({ personId, code, first, next }: WriterOptions, book: Book): Writer {
  const screen = createScreen()
  let pending = first

  const note = (writing: Writing, numbers: readonly number[] | null) => {
    pending = null
    book.answers.set(writing, numbers)
    writing.accepted(numbers ?? [])
  }

  const writeAll = async (windowUrl: string, more: typeof next, answered: () => void): Promise<void> => {
    // Nobody sets up a workshop that is set up, not even by the same command: the screen goes on with signing in.
    if (first !== null && pending === first && book.recovered.has(first)) note(first, null)
    pending ??= await more()
    if (pending === null) return
    await screen.enter(windowUrl)
    if (pending !== first) await screen.signIn(personId, code)
    for (; pending !== null; pending = await more()) {
      const writing = pending
      book.sent.add(writing)
      note(writing, await screen.send(writing))
      answered()
    }
  }

  const untilGone = async (work: Promise<void>): Promise<boolean> => {
    try {
      await work
      return true
    } catch (error) {
      if (error instanceof HostGone) return false
      throw error
    }
  }

  return {
    write: (windowUrl, answered) => untilGone(writeAll(windowUrl, next, answered)),
    finish: (windowUrl) => untilGone(writeAll(windowUrl, nothingMore, () => {})),
  }
}

const nothingMore = () => Promise.resolve(null)
