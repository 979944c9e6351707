/** The only pages that this program writes itself: plain HTML without script or style. */

export const pairingPage = page(
  'This screen is not paired',
  `<p>Panelwright shows the workshop only to screens that it knows.</p>
<ol>
<li>On the computer that Panelwright runs on, use its own window.</li>
<li>Where it was started without a window, open the whole address that it printed, with everything after the
question mark.</li>
</ol>
<p>Nothing was lost. Cookies must be allowed for this address, as that is how a screen is known again.</p>`,
)

export const usedAddressPage = page(
  'This address opens no screen any more',
  `<p>It has been used already, or it belongs to an earlier start of Panelwright.</p>
<p>Start Panelwright again and use the address that it prints then.</p>`,
)

function page(title: string, body: string): string {
  return `<!doctype html>
<html lang="en">
<head><meta charset="utf-8"><meta name="viewport" content="width=device-width"><title>${title} – Panelwright</title></head>
<body><main>
<h1>${title}</h1>
${body}
</main></body>
</html>
`
}
