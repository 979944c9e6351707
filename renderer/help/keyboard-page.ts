import type { HelpPage } from './help-shapes.ts'

export const keyboardPage: HelpPage = {
  title: 'Finding things, and the keyboard',
  what: 'One search goes through the whole workshop from any screen, and everything can be done without a mouse.',
  parts: [
    {
      kind: 'facts',
      heading: 'Finding',
      lines: [
        '‘Find’ stands at the side of every screen; on a phone it is in ‘More’ and on ‘Cars’.',
        'It goes through cars by name or shell number, owners by name, repairs, photos by caption, notes, findings, holds and screens.',
        'All words must be there, and the beginning of each is enough. A word of the car beside one of the repair narrows it down.',
        'Marks on letters do not matter: muller finds Müller.',
      ],
    },
    { kind: 'keys', heading: 'Every key, by where it works' },
    {
      kind: 'facts',
      heading: 'The map beside your work',
      lines: [
        '‘keyboard map’ at the side, or the key ?, shows the keys of the screen that you are on first.',
      ],
    },
  ],
}
