import { randomUUID } from 'node:crypto'
import MailComposer from 'nodemailer/lib/mail-composer'
import type { MailLetter } from '../api/deps.ts'

/**
 * An e-mail that is written but not sent (RFC 5322, CRLF line ends): `X-Unsent` makes mail programs open it for editing.
 * Names outside ASCII are encoded words (RFC 2047), the file's name a parameter (RFC 2231).
 */
export async function reportMail(letter: MailLetter): Promise<Uint8Array<ArrayBuffer>> {
  const composer = new MailComposer({
    ...(letter.from === null ? {} : { from: oneLined(letter.from) }),
    to: oneLined(letter.to),
    subject: oneLine(letter.subject),
    date: new Date(letter.date),
    // The mail program puts its own in its place; the domain is one that nobody can have (RFC 2606).
    messageId: `<${randomUUID()}@panelwright.invalid>`,
    headers: { 'X-Unsent': '1' },
    text: `${letter.paragraphs.join('\r\n\r\n')}\r\n`,
    attachments: [
      {
        filename: `${onAnyDisk(oneLine(letter.pdfName))}.pdf`,
        contentType: 'application/pdf',
        content: Buffer.from(letter.pdf),
      },
    ],
    disableFileAccess: true,
    disableUrlAccess: true,
  })
  return new Uint8Array(await composer.compile().build())
}

const oneLined = ({ name, address }: { readonly name: string; readonly address: string }) => ({
  name: oneLine(name),
  address: oneLine(address),
})

/** A line break in a header would begin another header. */
const oneLine = (text: string): string => text.replaceAll(/[\p{Cc}\u2028\u2029]+/gu, ' ').trim()

const onAnyDisk = (name: string): string => name.replaceAll(/[\\/:*?"<>|]/g, '-')
