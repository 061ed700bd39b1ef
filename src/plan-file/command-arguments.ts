/** What a command is called with: files, options that are whole numbers, and flags. */
import { parseArgs } from 'node:util'
import { HelpAsked } from './help-asked.ts'
import { InputFault } from './input-fault.ts'

/** No seed, effort or limit is larger: 32 bits. */
const MOST = 0xffff_ffff

export interface CommandArguments {
  readonly files: readonly string[]
  /** @returns null when the option was left out @throws InputFault when it is no whole number from `least` */
  wholeNumber(option: string, least: number): number | null
  /** @returns null when the option was left out @throws InputFault when it is no number above 0 */
  positiveNumber(option: string): number | null
  isSet(flag: string): boolean
}

/**
 * @param args  without the program
 * @param options  the options there are, without their dashes
 * @param usage  how to call it: said with everything that is wrong
 * @param flags  options without a value, without their dashes
 * @throws InputFault when there is another option, or one without a value
 * @throws HelpAsked with the usage
 */
export function commandArguments(
  args: readonly string[],
  options: readonly string[],
  usage: string,
  flags: readonly string[] = [],
): CommandArguments {
  if (args.includes('--help') || args.includes('-h')) throw new HelpAsked(usage)
  const { values, positionals } = parsed(args, options, flags, usage)
  const given = new Map<string, unknown>(Object.entries(values))
  return {
    files: positionals,
    positiveNumber: (option) => {
      const text = given.get(option)
      if (text === undefined) return null
      const value = Number(text)
      if (typeof text === 'string' && /^\d+(\.\d+)?$/.test(text) && value > 0 && value <= MOST) return value
      throw new InputFault(`--${option} ${text} is no number above 0. ${usage}`)
    },
    wholeNumber: (option, least) => {
      const text = given.get(option)
      if (text === undefined) return null
      const value = Number(text)
      if (typeof text === 'string' && /^\d+$/.test(text) && value >= least && value <= MOST) return value
      throw new InputFault(`--${option} ${text} is no whole number from ${least} to ${MOST}. ${usage}`)
    },
    isSet: (flag) => given.get(flag) === true,
  }
}

/** @throws InputFault unless there is exactly one */
export function onlyFile(files: readonly string[], usage: string): string {
  const [file, ...more] = files
  if (file === undefined || file === '') throw new InputFault(`The file is missing. ${usage}`)
  if (more.length > 0) throw new InputFault(`One file at a time. ${usage}`)
  return file
}

/** `--work -5` means the value -5, whatever a dash is at other places. */
function withValues(args: readonly string[], options: readonly string[]): string[] {
  const joined: string[] = []
  for (const arg of args) {
    const before = joined.at(-1)
    const isValue = options.some((option) => before === `--${option}`) && /^-\d/.test(arg)
    if (isValue) joined[joined.length - 1] = `${before}=${arg}`
    else joined.push(arg)
  }
  return joined
}

function parsed(
  args: readonly string[],
  options: readonly string[],
  flags: readonly string[],
  usage: string,
) {
  try {
    const known = Object.fromEntries([
      ...options.map((option) => [option, { type: 'string' as const }] as const),
      ...flags.map((flag) => [flag, { type: 'boolean' as const }] as const),
    ])
    return parseArgs({ args: withValues(args, options), options: known, allowPositionals: true })
  } catch (error) {
    throw new InputFault(`${error instanceof Error ? error.message : ''}. ${usage}`, { cause: error })
  }
}
