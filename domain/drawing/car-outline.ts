import type { Body } from '../facts/car-facts.ts'

/**
 * Outlines of a car seen from above, nose up, in a box of 44 by 100: one for each kind of body. Paths are SVG path data;
 * `glass` is what one looks through, `seams` are lids and doors, `open` is what has no roof over it.
 */
export interface CarOutline {
  readonly shell: string
  readonly glass: readonly string[]
  readonly seams: readonly string[]
  readonly open: readonly string[]
}

export const OUTLINE_WIDTH = 44
export const OUTLINE_LENGTH = 100

export const carOutlines: Readonly<Record<Body, CarOutline>> = {
  saloon: {
    shell: 'M5 6C14 1.5 30 1.5 39 6C41.5 24 42 76 40 93C36 98.5 8 98.5 4 93C2 76 2.5 24 5 6Z',
    glass: [
      'M8 37C17 32.5 27 32.5 36 37L33.5 46.5H10.5Z',
      'M10.5 78H33.5L35.5 86.5C27 89.5 17 89.5 8.5 86.5Z',
    ],
    seams: ['M5 28C16 25 28 25 39 28', 'M4.5 90.5C16 92.5 28 92.5 39.5 90.5', 'M10 48V76', 'M34 48V76'],
    open: [],
  },
  coupe: {
    shell:
      'M7 6C15 1 29 1 37 6C41.5 22 42.5 40 41 58C41.5 74 40 86 37.5 95C31 99 13 99 6.5 95C4 86 2.5 74 3 58C1.5 40 2.5 22 7 6Z',
    glass: ['M8.5 42C17 37 27 37 35.5 42L32.5 52H11.5Z', 'M12 69H32L36 89C27 93 17 93 8 89Z'],
    seams: ['M5.5 33C16 29.5 28 29.5 38.5 33', 'M15 8C16 18 16 26 15.5 31', 'M29 8C28 18 28 26 28.5 31'],
    open: [],
  },
  tourer: {
    shell:
      'M10 5C16 2 28 2 34 5L36.5 24C40.5 27 41.5 32 41.5 38V86C38 96 6 96 2.5 86V38C2.5 32 3.5 27 7.5 24Z',
    glass: ['M7.5 36.5H36.5L35 40H9Z'],
    seams: [
      'M12.5 7L9.5 26',
      'M31.5 7L34.5 26',
      'M22 5V30',
      'M8 31C17 29 27 29 36 31',
      'M5.5 87C14 90.5 30 90.5 38.5 87',
    ],
    open: [
      'M8 44H36C37.5 48 37.5 55 36 59H8C6.5 55 6.5 48 8 44Z',
      'M8 63H36C37.5 68 37.5 77 35 82H9C6.5 77 6.5 68 8 63Z',
    ],
  },
  roadster: {
    shell:
      'M12 6C17 2.5 27 2.5 32 6C38.5 14 41 26 40.5 40V70C40 82 36 92 30 96C25 98 19 98 14 96C8 92 4 82 3.5 70V40C3 26 5.5 14 12 6Z',
    glass: ['M9 49C17 45.5 27 45.5 35 49L34 52.5H10Z'],
    seams: [
      'M22 5V44',
      'M12 14C11 26 10.5 36 10.5 45',
      'M32 14C33 26 33.5 36 33.5 45',
      'M10 80C17 77.5 27 77.5 34 80',
    ],
    open: ['M9.5 56H34.5C35.5 62 35 69 32.5 73H11.5C9 69 8.5 62 9.5 56Z'],
  },
  estate: {
    shell: 'M5 6C14 1.5 30 1.5 39 6C41.5 24 42 76 41.5 96C34 98.5 10 98.5 2.5 96C2 76 2.5 24 5 6Z',
    glass: [
      'M8 35C17 30.5 27 30.5 36 35L33.5 44.5H10.5Z',
      'M9 91H35L35.5 95H8.5Z',
      'M5.5 56L8.5 57V85L5.5 88Z',
      'M38.5 56L35.5 57V85L38.5 88Z',
    ],
    seams: ['M5 27C16 24 28 24 39 27', 'M12 48V90', 'M32 48V90', 'M18.5 48V90', 'M25.5 48V90'],
    open: [],
  },
  van: {
    shell: 'M6 9C14 4 30 4 38 9C40.5 16 41 24 41.5 33V97H2.5V33C3 24 3.5 16 6 9Z',
    glass: ['M7.5 22C17 17.5 27 17.5 36.5 22L34 31.5H10Z'],
    seams: [
      'M5.5 15C16 11 28 11 38.5 15',
      'M5 35H39',
      'M22 93V97',
      'M5 93H39',
      'M5.5 47H38.5',
      'M5.5 60H38.5',
      'M5.5 73H38.5',
    ],
    open: [],
  },
  'pick-up': {
    shell: 'M6 7C14 2.5 30 2.5 38 7C40.5 20 41 32 41 46V96H3V46C3 32 3.5 20 6 7Z',
    glass: ['M8 30C17 25.5 27 25.5 36 30L33.5 38.5H10.5Z', 'M10.5 47.5H33.5L34 50.5H10Z'],
    seams: ['M5 23C16 19.5 28 19.5 39 23', 'M14 57V93', 'M22 57V93', 'M30 57V93'],
    open: ['M6.5 54H37.5V93H6.5Z'],
  },
}
