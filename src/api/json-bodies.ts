/** Bodies are JSON in UTF-8 or nothing; the bytes are kept for the hash of a repeated request. */
import { Problem } from './problems.ts'
import type { Api } from './zod-requests.ts'

export function onlyJson(app: Api): void {
  const parse = app.getDefaultJsonParser('error', 'error')
  app.decorateRequest('rawBody', null)
  app.removeAllContentTypeParsers()
  app.addContentTypeParser('application/json', { parseAs: 'buffer' }, (request, body: Buffer, done) => {
    request.rawBody = body
    const text = textFrom(body)
    if (text === null) {
      done(new Problem('malformed-json', 'The body is not UTF-8: it has bytes that are no characters.'))
      return
    }
    parse(request, text, (fault, parsed) =>
      done(fault && new Problem('malformed-json', whyNotJson(text)), parsed),
    )
  })
}

/** null: not UTF-8. Read loosely, such bytes would be stored as other text than was sent. */
function textFrom(body: Buffer): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(body)
  } catch {
    return null
  }
}

/** In the words of the parser, which name the place. */
function whyNotJson(text: string): string {
  if (text.trim() === '') return 'The body is empty, though its type says JSON.'
  try {
    JSON.parse(text)
    return 'The body has a key that is not taken (__proto__ or constructor).'
  } catch (fault) {
    return `The body is not valid JSON: ${fault instanceof Error ? fault.message : 'it cannot be read'}.`
  }
}
