/** The end of a sentence that offers something. */
export const fitsText = (verdict: 'fits' | 'tight'): string =>
  verdict === 'fits' ? 'it fits.' : 'it fits, with little to spare.'
