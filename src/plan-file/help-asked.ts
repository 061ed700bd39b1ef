/** Somebody asked how a command is called: no fault, and nothing to do. Its message says how. */
export class HelpAsked extends Error {
  override name = 'HelpAsked'
}
