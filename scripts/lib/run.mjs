import { spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';

/** The folder of the checkout. */
export const root = fileURLToPath(new URL('../../', import.meta.url));

const windows = process.platform === 'win32';

/**
 * Runs a command in the checkout with its output shown, and ends with its exit code.
 * @param {string} command
 * @param {string[]} args
 * @param {{ quiet?: boolean, env?: Record<string, string> }} [options]
 * @returns {Promise<number>}
 */
export function run(command, args, options = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, {
      cwd: root,
      stdio: options.quiet ? 'ignore' : 'inherit',
      env: { ...process.env, ...options.env },
      shell: windows,
    });
    child.on('error', () => resolve(127));
    child.on('close', (code, signal) => resolve(code ?? (signal ? 130 : 1)));
  });
}

/** Runs it and leaves when it fails. */
export async function must(command, args, options) {
  const code = await run(command, args, options);
  if (code !== 0) process.exit(code);
}

const TOOLS = {
  vitest: 'node_modules/vitest/vitest.mjs',
  biome: 'node_modules/@biomejs/biome/bin/biome',
  tsc: 'node_modules/typescript/bin/tsc',
  oxlint: 'node_modules/oxlint/bin/oxlint',
};

/**
 * Runs the command of an installed package.
 * @param {keyof typeof TOOLS} name
 * @param {string[]} args
 * @param {{ quiet?: boolean, env?: Record<string, string> }} [options]
 */
export function runTool(name, args, options) {
  return run(process.execPath, [root + TOOLS[name], ...args], options);
}
