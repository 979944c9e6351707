import { describe, expect, test } from 'vitest'
import { sortFiles } from '../../../renderer/card/card-files.ts'

const file = (name: string, type = '', bytes = 4) => new File([new Uint8Array(bytes)], name, { type })

describe('what lies on a camera card', () => {
  test('is parted into photos and what is left out, each with its reason', () => {
    const { photos, leftOut } = sortFiles([
      file('DSC_1.JPG', 'image/jpeg'),
      // A phone names HEIC by its ending alone.
      file('IMG_2.HEIC'),
      file('MVI_3.MOV', 'video/quicktime'),
      file('DSC_4.NEF'),
      file('._DSC_1.JPG', 'image/jpeg'),
      file('INDEX.BDM'),
      file('DSC_5.JPG', 'image/jpeg', 0),
    ])
    expect(photos.map(({ name }) => name)).toEqual(['DSC_1.JPG', 'IMG_2.HEIC'])
    expect(leftOut).toEqual([
      { name: 'MVI_3.MOV', why: 'a film' },
      { name: 'DSC_4.NEF', why: 'a raw picture: save it as JPEG and choose that one' },
      { name: '._DSC_1.JPG', why: 'a hidden file of the card or the computer' },
      { name: 'INDEX.BDM', why: 'no photo' },
      { name: 'DSC_5.JPG', why: 'empty: it holds 0 bytes' },
    ])
  })
})
