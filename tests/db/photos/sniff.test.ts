import { Buffer } from 'node:buffer'
import { readFile } from 'node:fs/promises'
import sharp from 'sharp'
import { describe, expect, it } from 'vitest'
import { sniff } from '../../../db/photos/sniff.ts'
import { createTestPhoto } from '../../support/images.ts'

const small = { width: 24, height: 16, color: '#886644' }

function ftyp(major: string, compatible: readonly string[]): Buffer {
  const brands = Buffer.from([major, '\0\0\0\0', ...compatible].join(''), 'latin1')
  const box = Buffer.alloc(8)
  box.writeUInt32BE(8 + brands.length)
  box.write('ftyp', 4, 'latin1')
  return Buffer.concat([box, brands, Buffer.alloc(64)])
}

describe('sniff', () => {
  it.each(['jpeg', 'png', 'webp'] as const)('knows a %s photo by its content', async (format) => {
    expect(sniff(await createTestPhoto({ ...small, format }))).toEqual({ kind: 'photo', type: format })
  })

  it('knows a HEIC photo by its brands', async () => {
    const sample = await readFile(new URL('../../fixtures/sample.heic', import.meta.url))
    expect(sniff(sample)).toEqual({ kind: 'photo', type: 'heic' })
  })

  // Brands of ISO/IEC 23008-12 (HEIF), annexes A and B; from memory.
  it.each([
    ['heic', ['mif1', 'heic']],
    ['heix', ['mif1', 'heix']],
    ['hevc', ['msf1', 'hevc']],
    ['mif1', ['mif1', 'heic', 'miaf']],
    ['mif1', ['mif1']],
  ])('takes major brand %s with %j for HEIC', (major, compatible) => {
    expect(sniff(ftyp(major, compatible))).toEqual({ kind: 'photo', type: 'heic' })
  })

  it.each([
    ['avif', ['mif1', 'miaf'], 'an AVIF picture'],
    ['mif1', ['mif1', 'avif'], 'an AVIF picture'],
    ['isom', ['isom', 'mp41'], 'a film or sound file'],
    ['qt  ', ['qt  '], 'a film or sound file'],
  ])('refuses major brand %s with %j by name', (major, compatible, looksLike) => {
    expect(sniff(ftyp(major, compatible))).toEqual({ kind: 'other', looksLike })
  })

  it('refuses AVIF and GIF and TIFF as sharp writes them by name', async () => {
    const image = sharp({ create: { width: 16, height: 16, channels: 3, background: '#446' } })
    const named = async (bytes: Promise<Buffer>) => sniff(await bytes)
    expect(await named(image.clone().avif().toBuffer())).toEqual({
      kind: 'other',
      looksLike: 'an AVIF picture',
    })
    expect(await named(image.clone().gif().toBuffer())).toEqual({ kind: 'other', looksLike: 'a GIF picture' })
    expect(await named(image.clone().tiff().toBuffer())).toEqual({
      kind: 'other',
      looksLike: 'a TIFF or camera raw picture',
    })
  })

  it.each([
    ['<svg xmlns="http://www.w3.org/2000/svg"/>', 'an SVG drawing'],
    ['\ufeff<?xml version="1.0"?>\n<!-- a comment -->\n<svg width="9">', 'an SVG drawing'],
    ['<!DOCTYPE html><p>hello', 'a web page'],
    ['Dear owner, this is a text.', 'a text'],
    ['%PDF-1.7', 'a PDF document'],
    ['PK\u0003\u0004', 'an archive or office document'],
    ['\u0001\u0002\u0003\u0004', 'a file of unknown kind'],
  ])('refuses %j by name', (content, looksLike) => {
    expect(sniff(Buffer.from(content))).toEqual({ kind: 'other', looksLike })
  })

  it('says of fewer bytes than any signature that the kind is unknown or a text', () => {
    expect(sniff(Buffer.alloc(0))).toEqual({ kind: 'other', looksLike: 'a file of unknown kind' })
    expect(sniff(Buffer.from([0xff, 0xd8]))).toEqual({ kind: 'other', looksLike: 'a text' })
  })
})
