/** A moment in the name of a file, 'YYYY-MM-DDTHH-MM-SSZ': sorts by time, and every file system takes it. @param moment epoch milliseconds */
export const stampOf = (moment: number): string =>
  `${new Date(moment).toISOString().slice(0, 19).replaceAll(':', '-')}Z`
