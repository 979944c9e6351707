/** Text as it may stand between tags and within a quoted attribute, of HTML and of XML. */
export function escapeHtml(text: string): string {
  return text.replaceAll(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`)
}
