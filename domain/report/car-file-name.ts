/** The ending of a car's file that opens in Panelwright. In it is the same archive as under `.zip`, which stays everybody's. */
export const CAR_FILE_ENDING = '.panelcar'
export const CAR_FILE_TYPE = 'application/vnd.panelwright.car+zip'

/** What a field for such a file takes, as the `accept` of an input: both endings, and the type of archives. */
export const CAR_FILE_ACCEPT = `${CAR_FILE_ENDING},.zip,application/zip`

/** Whether a path may name a car's file. By its ending alone: what is in it is looked at when it is brought in. */
export const isCarFileName = (path: string): boolean => /\.(panelcar|zip)$/i.test(path)
