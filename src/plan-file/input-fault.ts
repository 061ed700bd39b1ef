/** What a command was given cannot be used; the message says what is wrong with it, where, and what to do. */
export class InputFault extends Error {
  override name = 'InputFault'
}
