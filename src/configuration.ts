/** What can be set from outside, read once at start from environment variables. */
import { z } from 'zod'

export const LogLevel = z.enum(['trace', 'debug', 'info', 'warn', 'error', 'fatal', 'silent'])
export type LogLevel = z.infer<typeof LogLevel>

export interface Configuration {
  /** 0: any free port. */
  readonly port: number
  readonly host: string
  readonly databaseFile: string
  /** Whether an empty database is filled with the demo hall. */
  readonly demo: boolean
  readonly logLevel: LogLevel
}

/** A setting that cannot be taken; the message names every one of them, its value and what is allowed. */
export class ConfigurationFault extends Error {
  override name = 'ConfigurationFault'
}

const loopbackHosts: readonly string[] = ['127.0.0.1', '::1', 'localhost']

const Environment = z.object({
  PORT: z
    .string()
    .regex(/^[0-9]{1,5}$/)
    .transform(Number)
    .refine((port) => port <= 65_535)
    .default(8080),
  HOST: z
    .string()
    .refine((host) => loopbackHosts.includes(host))
    .default('127.0.0.1'),
  DATABASE_FILE: z
    .string()
    // The database engine takes blanks off the ends, so that is done before anybody else looks at the path.
    .trim()
    .refine((file) => file !== '' && file !== ':memory:' && !/\p{Cc}/u.test(file))
    .default('data/turnwright.sqlite'),
  DEMO: z
    .enum(['on', 'off'])
    .default('on')
    .transform((demo) => demo === 'on'),
  LOG_LEVEL: LogLevel.default('info'),
})

/** Every variable and what it may hold: the one place where a message about it is written. */
export const settingsAllowed: Readonly<Record<keyof z.infer<typeof Environment>, string>> = {
  PORT: 'a whole number from 0 to 65535 (0: any free port)',
  HOST:
    'localhost, 127.0.0.1 or ::1: there are no accounts yet, so whoever reaches the service may do everything, ' +
    'and it therefore answers this computer only',
  DATABASE_FILE: 'the path of a file (not :memory:, since the threads of the service meet in the file)',
  DEMO: 'on or off',
  LOG_LEVEL: LogLevel.options.join(', '),
}

/**
 * @param env  the environment; a variable that is not set or is empty takes its default
 * @throws ConfigurationFault naming each variable that cannot be taken
 */
export function configurationFrom(env: Readonly<Record<string, string | undefined>>): Configuration {
  const given = Object.fromEntries(
    Object.keys(settingsAllowed)
      .map((name) => [name, env[name]] as const)
      .filter(([, value]) => value !== undefined && value !== ''),
  )
  const parsed = Environment.safeParse(given)
  if (!parsed.success) {
    const names = Object.keys(settingsAllowed).filter((name) =>
      parsed.error.issues.some((i) => i.path[0] === name),
    )
    throw new ConfigurationFault(names.map((name) => faultLine(name, given[name])).join('\n'))
  }
  const { PORT, HOST, DATABASE_FILE, DEMO, LOG_LEVEL } = parsed.data
  return { port: PORT, host: HOST, databaseFile: DATABASE_FILE, demo: DEMO, logLevel: LOG_LEVEL }
}

/**
 * For a command that needs nothing else: it looks at no other variable.
 * @throws ConfigurationFault
 */
export const databaseFileFrom = ({ DATABASE_FILE }: Readonly<Record<string, string | undefined>>): string =>
  configurationFrom({ DATABASE_FILE }).databaseFile

const faultLine = (name: string, value: string | undefined): string =>
  `${name} is ${JSON.stringify(value)}; allowed: ${new Map(Object.entries(settingsAllowed)).get(name) ?? ''}`
