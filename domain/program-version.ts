/** As package.json has it; a test compares the two. */
export const PROGRAM_VERSION = '0.1.0'
