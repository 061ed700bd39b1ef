/** Whether the database says that pages of the file are damaged, which it does only when it comes to them. */
export const isDamage = (error: unknown): boolean =>
  error instanceof Error &&
  (('code' in error && String(error.code).startsWith('SQLITE_CORRUPT')) || isDamage(error.cause))
