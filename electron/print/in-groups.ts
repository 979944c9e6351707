/** A digest eight letters at a time, so that people can compare it. */
export const inGroups = (digest: string): string => digest.replaceAll(/.{8}(?=.)/g, '$& ')
