/** A problem for somebody who came with a browser: the same words as in the problem document. */
import { type Problem, problemTypes } from '../problems.ts'
import { page } from './frame.ts'
import { type Html, html } from './html.ts'

export function problemPage(problem: Problem): Html {
  const type = problemTypes.get(problem.slug)
  const title = type?.title ?? 'Something went wrong'
  return page(
    title,
    html`<h1>${title}</h1>
<p>${problem.message}</p>
${type?.retryHelps && html`<p>Try again in a moment.</p>`}
<p><a href="/">To the week</a></p>`,
  )
}
