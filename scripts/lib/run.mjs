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

/** Program of an installed package, by the name of its command. */
export const tool = (name) => [process.execPath, [...toolPath(name)]];

function toolPath(name) {
  const entries = {
    vitest: 'node_modules/vitest/vitest.mjs',
    biome: 'node_modules/@biomejs/biome/bin/biome',
    tsc: 'node_modules/typescript/bin/tsc',
    oxlint: 'node_modules/oxlint/bin/oxlint',
  };
  return [`${root}${entries[name]}`];
}

/** Runs a command of an installed package. */
export function runTool(name, args, options) {
  const [command, path] = tool(name);
  return run(command, [...path, ...args], options);
}
