/** One thing that can be done with the keyboard. */
export interface KeyLine {
  /** Each as it is pressed, 'Shift+←'; any of them does it. 'Mod' is Ctrl, and ⌘ on a Mac. */
  readonly keys: readonly string[]
  readonly does: string
  /** A key without Ctrl or Alt, which can be switched off. */
  readonly isSingle?: true
}

/** Keys that work in one place. */
export interface KeyGroup {
  readonly where: string
  /** How the paths of screens begin that it is met on; empty where it is on any. */
  readonly on: readonly string[]
  readonly lines: readonly KeyLine[]
}

const WITH_PHOTOS: readonly string[] = ['/cars/', '/shop-floor', '/day-sheet', '/owner-decisions']

/** Everywhere but in fields and over open sheets (renderer/keys/key-act.ts). */
const EVERYWHERE: KeyGroup = {
  where: 'Everywhere',
  on: [],
  lines: [
    { keys: ['Mod+K'], does: 'Find a car, an owner, a repair, a photo or a note' },
    { keys: ['/'], does: 'Find', isSingle: true },
    { keys: ['?'], does: 'Show this map', isSingle: true },
    { keys: ['Alt+1 … 8'], does: 'Go to a screen, in the order in which they stand at the side' },
    { keys: ['F1'], does: 'Read the help for this screen' },
    { keys: ['Tab', 'Shift+Tab'], does: 'Go to the next control, or back' },
    { keys: ['Enter', 'Space'], does: 'Press the button that has the focus' },
    { keys: ['Esc'], does: 'Close the sheet or menu that is open' },
  ],
}

/**
 * Every key that does something, by where it does. What acts on a part of a screen acts only while the focus is on that part.
 */
export const KEY_MAP: readonly KeyGroup[] = [
  EVERYWHERE,
  {
    where: 'While finding',
    on: [],
    lines: [
      { keys: ['↓', '↑'], does: 'Go through what was found' },
      { keys: ['Enter'], does: 'Open it' },
    ],
  },
  {
    where: 'The plan as a drawing',
    on: ['/plan'],
    lines: [
      { keys: ['←', '→'], does: 'Go to the work before or after, in the same row' },
      { keys: ['↑', '↓'], does: 'Go to the row above or below' },
      { keys: ['Home', 'End'], does: 'Go to the first or last work of the row' },
      { keys: ['Enter'], does: 'Choose the work: who, when and why then stands below the drawing' },
      { keys: ['Space'], does: 'Take up a car’s stay in a bay, to move it' },
      { keys: ['+', '-'], does: 'Look closer, or from further off' },
      { keys: ['0'], does: 'Go to today' },
      { keys: ['Esc'], does: 'Choose nothing' },
    ],
  },
  {
    where: 'A stay that was taken up in the plan',
    on: ['/plan'],
    lines: [
      { keys: ['←', '→'], does: 'Move it by a day' },
      { keys: ['Shift+←', 'Shift+→'], does: 'Move it by a week' },
      { keys: ['↑', '↓'], does: 'Move it to another bay' },
      { keys: ['Enter'], does: 'Put it down there' },
      { keys: ['Esc'], does: 'Put it back where it was' },
    ],
  },
  {
    where: 'A photo that is shown large',
    on: WITH_PHOTOS,
    lines: [{ keys: ['←', '→'], does: 'Show the photo before or after' }],
  },
  {
    where: 'Drawing on a photo',
    on: WITH_PHOTOS,
    lines: [
      { keys: ['←', '→', '↑', '↓'], does: 'Move the mark' },
      { keys: ['Shift+arrow'], does: 'Make the mark larger or smaller' },
      { keys: ['Delete', 'Backspace'], does: 'Take the mark off' },
    ],
  },
  {
    where: 'The caption of a photo just taken',
    on: WITH_PHOTOS,
    lines: [{ keys: ['Enter'], does: 'Keep what was written' }],
  },
  {
    where: 'Cutting a photo for a report',
    on: ['/owner-reports'],
    lines: [
      { keys: ['←', '→', '↑', '↓'], does: 'Move the cut' },
      { keys: ['Shift+arrow'], does: 'Make the cut larger or smaller' },
    ],
  },
  {
    where: 'A bay on the plan of the floor',
    on: ['/workshop'],
    lines: [
      { keys: ['Enter', 'Space'], does: 'Choose the bay' },
      { keys: ['←', '→', '↑', '↓'], does: 'Move it by 0.2 m' },
      { keys: ['Shift+arrow'], does: 'Make it 0.2 m larger or smaller' },
    ],
  },
  {
    where: 'A list of words, such as skills',
    on: ['/workshop'],
    lines: [{ keys: ['Enter'], does: 'Add the word' }],
  },
  {
    where: 'A menu',
    on: [],
    lines: [
      { keys: ['↓', '↑'], does: 'Open it at its first or last line; then go through it' },
      { keys: ['a letter'], does: 'Go to the line that begins with it' },
    ],
  },
  {
    where: 'A code',
    on: [],
    lines: [
      { keys: ['0 … 9'], does: 'Type the code' },
      { keys: ['Enter'], does: 'Sign with it' },
    ],
  },
]

/** What works everywhere, then the groups of a screen, then those of any, then the rest. */
export function keyMapFor(path: string): readonly KeyGroup[] {
  const rank = (group: KeyGroup): number => {
    if (group === EVERYWHERE) return 0
    if (group.on.some((screen) => path.startsWith(screen))) return 1
    return group.on.length === 0 ? 2 : 3
  }
  return KEY_MAP.toSorted((a, b) => rank(a) - rank(b))
}
