import PostalMime from 'postal-mime'
import { describe, expect, test } from 'vitest'
import type { MailLetter } from '../../../electron/api/deps.ts'
import { reportMail } from '../../../electron/export/report-mail.ts'

/** Every byte value, in an order that base64 lines cut anywhere. */
const pdf = Uint8Array.from({ length: 5000 }, (_, index) => (index * 7) % 256)

const letter = (more: Partial<MailLetter> = {}): MailLetter => ({
  from: { name: 'Harrow Lane', address: 'desk@harrow.example' },
  to: { name: 'R. Okafor', address: 'owner@okafor.example' },
  subject: 'Dunmere Saloon, week 48',
  paragraphs: ['Dear R. Okafor,', 'Our report is attached.'],
  date: Date.parse('2026-11-27T15:00:00Z'),
  pdfName: '2026-W48 Dunmere Saloon',
  pdf,
  ...more,
})

const written = async (more: Partial<MailLetter> = {}) => {
  const text = Buffer.from(await reportMail(letter(more))).toString('latin1')
  // A parser that shares nothing with the writer.
  return { text, mail: await PostalMime.parse(Buffer.from(text, 'latin1')) }
}

const headOf = (text: string): readonly string[] =>
  text
    .slice(0, text.indexOf('\r\n\r\n'))
    .replaceAll(/\r\n[ \t]+/g, ' ')
    .split('\r\n')

describe('an e-mail with a report', () => {
  test('is read back with its people, words and date, and opens as not sent', async () => {
    const { mail, text } = await written()
    expect(mail.from).toMatchObject({ name: 'Harrow Lane', address: 'desk@harrow.example' })
    expect(mail.to).toMatchObject([{ name: 'R. Okafor', address: 'owner@okafor.example' }])
    expect(mail.subject).toBe('Dunmere Saloon, week 48')
    expect(mail.text?.replaceAll('\r', '').trim()).toBe('Dear R. Okafor,\n\nOur report is attached.')
    expect(mail.date).toBe('2026-11-27T15:00:00.000Z')
    expect(mail.messageId).toMatch(/^<[0-9a-f-]{36}@panelwright\.invalid>$/)
    expect(headOf(text)).toContain('X-Unsent: 1')
  })

  test('holds the PDF byte for byte', async () => {
    const { mail } = await written()
    expect(mail.attachments).toMatchObject([
      { filename: '2026-W48 Dunmere Saloon.pdf', mimeType: 'application/pdf', disposition: 'attachment' },
    ])
    expect(new Uint8Array(mail.attachments[0]?.content as ArrayBuffer)).toEqual(pdf)
  })

  // RFC 5322, 2.1.1 and 2.3: lines end in CRLF and are at most 998 characters long; the head is ASCII.
  test('is made of lines that every mail program takes', async () => {
    const { text } = await written({ to: { name: 'Jürgen Weiß', address: 'j@weiss.example' } })
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/)
    expect(Math.max(...text.split('\r\n').map((line) => line.length))).toBeLessThanOrEqual(998)
    expect(text.slice(0, text.indexOf('\r\n\r\n'))).toMatch(/^[\x20-\x7e\r\n\t]+$/)
  })

  test.each(['Jürgen Weiß', 'Ann "Dot" O’Hara', 'Okafor, Ruth <the elder>', '岡田 学', 'Back\\slash'])(
    'keeps the name %s',
    async (name) => {
      const { mail } = await written({
        from: { name, address: 'desk@harrow.example' },
        to: { name, address: 'owner@okafor.example' },
        subject: `${name}, week 48`,
        paragraphs: [`Dear ${name},`],
      })
      expect(mail.from).toMatchObject({ name, address: 'desk@harrow.example' })
      expect(mail.to).toMatchObject([{ name, address: 'owner@okafor.example' }])
      expect(mail.subject).toBe(`${name}, week 48`)
      expect(mail.text?.trim()).toBe(`Dear ${name},`)
    },
  )

  test('names its PDF in any script, without what no disk takes', async () => {
    const { mail } = await written({ pdfName: 'Türschwelle "4/5" 学' })
    expect(mail.attachments[0]?.filename).toBe('Türschwelle -4-5- 学.pdf')
  })

  test.each(['\r\n', '\n', '\r', '\u2028'])('lets no name begin another header with %j', async (lineEnd) => {
    const bad = `A${lineEnd}Bcc: thief@elsewhere.example${lineEnd}${lineEnd}body`
    const plain = headOf((await written()).text).map((line) => line.split(':')[0])
    const { mail, text } = await written({
      from: { name: bad, address: 'desk@harrow.example' },
      to: { name: bad, address: 'owner@okafor.example' },
      subject: bad,
      pdfName: bad,
    })
    expect(headOf(text).map((line) => line.split(':')[0])).toEqual(plain)
    expect(mail.bcc ?? []).toEqual([])
    expect(mail.to?.map(({ address }) => address)).toEqual(['owner@okafor.example'])
    expect(mail.attachments).toHaveLength(1)
    expect(mail.subject).toContain('Bcc: thief@elsewhere.example')
  })

  test('leaves an unknown sender to the mail program', async () => {
    const { mail, text } = await written({ from: null })
    expect(mail.from).toBeUndefined()
    expect(headOf(text).some((line) => /^from:/i.test(line))).toBe(false)
  })
})
