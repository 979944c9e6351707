/** Text as it may stand between tags and within a quoted attribute. */
export function escapeHtml(text: string): string {
  return text.replaceAll(/[&<>"']/g, (sign) => `&#${sign.charCodeAt(0)};`)
}
