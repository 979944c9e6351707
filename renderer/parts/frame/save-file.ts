/** Saves what the host gives at this address under the name that the host gives it. */
export function saveFile(address: string): void {
  const link = document.createElement('a')
  link.href = address
  link.download = ''
  link.click()
}
