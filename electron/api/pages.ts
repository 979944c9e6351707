import type { Context } from 'hono'
import { html, raw } from 'hono/html'
import type { Refusal } from '../../domain/refusal.ts'
import { PAGE_STYLE } from './page-style.ts'

/** The only pages that this program writes itself: plain HTML without script. What is put in is escaped. */
type Html = ReturnType<typeof html>

export interface Page {
  readonly title: string
  readonly body: Html
}

export interface PairingForm {
  readonly code: string
  readonly name: string
  readonly refusal: Refusal | null
  /** Name of the device that was let in by this cookie until it was shut out. */
  readonly shutOutAs: string | null
}

/** How to pair, with the form for the code, which comes back filled in where it was refused. */
export function pairingPage({ code, name, refusal, shutOutAs }: PairingForm): Page {
  const title = shutOutAs === null ? 'This screen is not paired' : 'This device was shut out'
  const body = html`<h1>${title}</h1>
    ${shutOutAs === null ? howTo : shutOut}
    <form method="post" action="/pair">
      ${refusal === null ? '' : refusalNote(refusal)}
      <div class="field">
        <label for="code">Pairing code</label>
        <input
          id="code"
          name="code"
          class="code"
          value="${code}"
          required
          autocomplete="off"
          autocapitalize="characters"
          autocorrect="off"
          spellcheck="false"
          enterkeyhint="next"
          size="8"
          maxlength="12"
          aria-describedby="code-says"
        />
        <p id="code-says" class="hint">
          Eight letters and digits. Each code lets in one device and lasts five minutes.
        </p>
      </div>
      <div class="field">
        <label for="name">Name of this device</label>
        <input
          id="name"
          name="name"
          value="${name}"
          required
          autocomplete="off"
          enterkeyhint="go"
          maxlength="60"
          aria-describedby="name-says"
        />
        <p id="name-says" class="hint">So that everybody knows it in the list, like ‘Tablet by the jig’.</p>
      </div>
      <button type="submit">Let this device in</button>
    </form>
    <section>
      <h2>On the computer that Panelwright runs on</h2>
      <p>
        Use its own window. Where it was started without one, open the whole address that it printed, with
        everything after the question mark. Cookies must be allowed for this address, as that is how a screen
        is known again.
      </p>
    </section>`
  return { title, body }
}

const howTo = html`<p class="lead">
  A manager shows a code in Panelwright’s own window, under Workshop, Devices. Scan it with the camera of this
  device, or type it here.
</p>`

const shutOut = html`<p class="lead">
    A manager has ended its access. What it sent stays in the workshop; what still waits on it goes out when
    it is let in again.
  </p>
  ${howTo}`

const refusalNote = ({ message, next }: Refusal): Html =>
  html`<div class="refused" role="alert">
    <p><strong>${message}</strong></p>
    <p>${next}</p>
  </div>`

/** For a secret that opens nothing any more. */
export function usedAddressPage(): Page {
  const title = 'This address opens no screen any more'
  const body = html`<h1>${title}</h1>
    <p class="lead">It has been used already, or it belongs to an earlier start of Panelwright.</p>
    <p class="lead">Start Panelwright again and use the address that it prints then.</p>`
  return { title, body }
}

/**
 * Sends a page under a policy of its own: its style and its form, nothing else. The referrer stays within this host, as a
 * browser that sends none says 'null' for the Origin of a form as well.
 */
export async function answerPage(
  c: Context,
  { title, body }: Page,
  status: 200 | 401 | 403 | 422 | 429,
): Promise<Response> {
  const nonce = crypto.randomUUID()
  const page = html`<!doctype html>
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta name="viewport" content="width=device-width, initial-scale=1, viewport-fit=cover" />
        <meta name="color-scheme" content="light dark" />
        <title>${title} – Panelwright</title>
        <style nonce="${nonce}">
          ${raw(PAGE_STYLE)}
        </style>
      </head>
      <body>
        <header>${MARK} Panelwright</header>
        <main>${body}</main>
      </body>
    </html>`
  return c.html(page, status, {
    'Content-Security-Policy': [
      "default-src 'none'",
      `style-src 'nonce-${nonce}'`,
      "form-action 'self'",
      "base-uri 'none'",
      "frame-ancestors 'none'",
    ].join('; '),
    'Referrer-Policy': 'same-origin',
  })
}

const MARK = html`<svg viewBox="0 0 32 32" width="28" height="28" aria-hidden="true">
  <path d="M22 7H9v18h13" fill="none" stroke="currentColor" stroke-width="3.5" />
  <path class="cut" d="M26 5v22" fill="none" stroke-width="3" stroke-dasharray="4 3" />
</svg>`
