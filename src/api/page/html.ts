/** Pages are written with this tag alone: whatever is filled in is escaped, unless it was made by the tag itself. */

export class Html {
  readonly text: string

  constructor(text: string) {
    this.text = text
  }
}

export type Filling = string | number | Html | null | undefined | false | readonly Filling[]

/** null, undefined and false show nothing; lists show one after the other. */
export function html(parts: TemplateStringsArray, ...fillings: readonly Filling[]): Html {
  return new Html(parts.map((part, index) => part + textOf(fillings[index])).join(''))
}

function textOf(filling: Filling): string {
  if (filling === null || filling === undefined || filling === false) return ''
  if (filling instanceof Html) return filling.text
  if (typeof filling === 'object') return filling.map(textOf).join('')
  return escaped(String(filling))
}

const entities: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
}

const escaped = (text: string): string =>
  text.replace(/[&<>"']/g, (character) => entities[character] ?? character)
