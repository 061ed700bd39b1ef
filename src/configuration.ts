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
  /** Where people reach it, without a slash at the end; null: where it listens. */
  readonly publicUrl: string | null
  /** How many proxies before it are trusted to say where a request comes from. */
  readonly trustProxy: number
  /** null: letters are written to the log. */
  readonly smtpUrl: string | null
  /** From whom letters come. */
  readonly mailFrom: string
  /** Of one address. */
  readonly requestsPerMinute: number
}

/** Reached from this computer only. */
export const isOnLoopback = ({ host, publicUrl }: Configuration): boolean =>
  loopbackHosts.includes(host) && publicUrl === null

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
    .trim()
    .regex(/^[A-Za-z0-9.:-]{1,255}$/)
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
  PUBLIC_URL: z
    .url({ protocol: /^https?$/ })
    .refine((text) => URL.canParse(text) && /^https?:\/\/[^/?#]+\/?$/.test(text))
    .transform((text) => (URL.canParse(text) ? new URL(text).origin : text))
    .nullable()
    .default(null),
  TRUST_PROXY: z
    .string()
    .regex(/^[0-9]$/)
    .transform(Number)
    .default(0),
  SMTP_URL: z
    .url({ protocol: /^smtps?$/ })
    .nullable()
    .default(null),
  MAIL_FROM: z.string().trim().min(3).max(254).default('turnwright@localhost'),
  REQUESTS_PER_MINUTE: z
    .string()
    .regex(/^[1-9][0-9]{0,6}$/)
    .transform(Number)
    .default(1200),
})

/** Every variable and what it may hold: the one place where a message about it is written. */
export const settingsAllowed: Readonly<Record<keyof z.infer<typeof Environment>, string>> = {
  PORT: 'a whole number from 0 to 65535 (0: any free port)',
  HOST: 'the address to listen on; another than localhost, 127.0.0.1 and ::1 needs PUBLIC_URL too',
  DATABASE_FILE: 'the path of a file (not :memory:, since the threads of the service meet in the file)',
  DEMO: 'on or off',
  LOG_LEVEL: LogLevel.options.join(', '),
  PUBLIC_URL: 'http:// or https:// and the host that people reach it by, without a path',
  TRUST_PROXY: 'how many proxies stand before the service, 0 to 9',
  SMTP_URL: 'smtp:// or smtps://, with user and password where the server asks for them',
  MAIL_FROM: 'the address that letters come from',
  REQUESTS_PER_MINUTE: 'a whole number from 1 to 9999999',
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
  const {
    PORT,
    HOST,
    DATABASE_FILE,
    DEMO,
    LOG_LEVEL,
    PUBLIC_URL,
    TRUST_PROXY,
    SMTP_URL,
    MAIL_FROM,
    REQUESTS_PER_MINUTE,
  } = parsed.data
  if (!loopbackHosts.includes(HOST) && PUBLIC_URL === null) {
    throw new ConfigurationFault(
      `HOST is ${JSON.stringify(HOST)} and PUBLIC_URL is not set: whoever listens beyond this computer says by which address people reach it, so that pages of others are told apart`,
    )
  }
  return {
    port: PORT,
    host: HOST,
    databaseFile: DATABASE_FILE,
    demo: DEMO,
    logLevel: LOG_LEVEL,
    publicUrl: PUBLIC_URL,
    trustProxy: TRUST_PROXY,
    smtpUrl: SMTP_URL,
    mailFrom: MAIL_FROM,
    requestsPerMinute: REQUESTS_PER_MINUTE,
  }
}

/**
 * For a command that needs nothing else: it looks at no other variable.
 * @throws ConfigurationFault
 */
export const databaseFileFrom = ({ DATABASE_FILE }: Readonly<Record<string, string | undefined>>): string =>
  configurationFrom({ DATABASE_FILE }).databaseFile

/** What may hold a password is not repeated. */
const faultLine = (name: string, value: string | undefined): string =>
  `${name} is ${name === 'SMTP_URL' ? 'not an address' : JSON.stringify(value)}; allowed: ${new Map(Object.entries(settingsAllowed)).get(name) ?? ''}`
