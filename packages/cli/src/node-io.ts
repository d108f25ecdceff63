import { readFile, realpath, stat, writeFile } from 'node:fs/promises';
import { resolve } from 'node:path';
import { clockText } from './dates';
import type { Io } from './io';

const REASONS: Record<string, string> = {
  ENOENT: 'there is no such file or folder',
  EACCES: 'you may not open it',
  EPERM: 'you may not open it',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is not a folder',
  EEXIST: 'there is a file of that name already; it is left as it is',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk can only be read',
};

function reason(error: unknown): { reason: string } {
  const code = (error as { code?: string }).code ?? '';
  return { reason: REASONS[code] ?? (error instanceof Error ? error.message : String(error)) };
}

export const nodeIo: Io = {
  out: (text) => void process.stdout.write(text),
  err: (text) => void process.stderr.write(text),
  async size(path) {
    try {
      const info = await stat(path);
      return info.isDirectory() ? { reason: REASONS.EISDIR } : info.size;
    } catch (error) {
      return reason(error);
    }
  },
  read: (path) => readFile(path),
  async realPath(path) {
    try {
      return await realpath(path);
    } catch {
      // not there yet
      return resolve(path);
    }
  },
  async writeNew(path, text) {
    try {
      await writeFile(path, text, { flag: 'wx' });
      return undefined;
    } catch (error) {
      return reason(error);
    }
  },
  async write(path, text) {
    try {
      await writeFile(path, text);
      return undefined;
    } catch (error) {
      return reason(error);
    }
  },
  get columns() {
    return process.stdout.isTTY ? process.stdout.columns : undefined;
  },
  today: (timeZone) => clockText(Date.now(), timeZone).slice(0, 10),
};

/** Who reads the output may have had enough (`| head`): what comes after that is dropped, not a fault. */
export function letReadersLeave(streams: readonly Pick<NodeJS.WriteStream, 'on'>[]): void {
  for (const stream of streams)
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code !== 'EPIPE') throw error;
    });
}
