/** How large a file is, for people. */
const BYTES_IN_MEGABYTE = 1_000_000

/** @returns megabytes with one decimal, rounded up, so that no file is said to be of no size */
export const sizeInWords = (bytes: number): string =>
  `${(Math.ceil(bytes / (BYTES_IN_MEGABYTE / 10)) / 10).toFixed(1)} MB`
