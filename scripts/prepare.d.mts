export const root: string
export function requireNode(): void
export function installPackages(): void
export function isBuilt(): boolean
export function buildProgram(): void
