import { mkdtemp, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { main } from '../src/main';
import { nodeIo } from '../src/node-io';
import { example, world } from './world';

const quince = example('quince-yard');
const tern = example('tern-roof');
const FILES = { 'q.json': quince, 't.json': tern, 'broken.json': '{"schemaVersion": 9}' };
const AT = ['--at', '2026-04-12T11:00'];

describe('what is written never goes over a project', () => {
  it.each([
    [['report', 'q.json'], 'q.json', 'that file is what is read'],
    [['report', 'q.json'], './q.json', 'that file is what is read'],
    [['parts', 'q.json', '--csv'], 't.json', 'there is a project of that name'],
    [['cuts', 'q.json'], 'broken.json', 'there is a project of that name'],
    [['season', 'q.json', '--svg'], 'q.json', 'that file is what is read'],
    [['season', 'q.json', '--csv', '--weather', 'w.epw'], 'w.epw', 'that file is what is read'],
    [['heat', 'q.json', ...AT], 't.json', 'there is a project of that name'],
  ])('%j --out %s', async (argv, out, message) => {
    const io = world({ ...FILES, 'w.epw': 'LOCATION' });
    const before = new Map(io.files);
    expect(await main([...argv, '--out', out], io)).toBe(2);
    expect(io.errors).toContain(message);
    expect(io.files).toEqual(before);
  });
  it('nor a drawing, whose names are known only when it is drawn', async () => {
    const io = world({ ...FILES, 'x-loop.svg': quince });
    expect(await main(['draw', 'q.json', 'loop', '--svg', '--out', 'x'], io)).toBe(2);
    expect(io.files.get('x-loop.svg')).toBe(quince);
  });
  it('writes over what was written before', async () => {
    const io = world({ ...FILES, 'sun.json': '{"result": 1}' });
    expect(await main(['sun', 'q.json', ...AT, '--json', '--out', 'sun.json'], io)).toBe(0);
    expect(JSON.parse(String(io.files.get('sun.json'))).result.noon).toBeDefined();
    expect(io.text).toBe('');
  });
});

describe('a file by another name', () => {
  let folder = '';
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'sunlap-'));
  });
  afterAll(() => rm(folder, { recursive: true }));
  it('is the same file', async () => {
    const [file, link] = [join(folder, 'q.txt'), join(folder, 'link')];
    await writeFile(file, quince);
    await symlink(file, link);
    const io = { ...nodeIo, out: () => {}, err: () => {} };
    expect(await main(['sun', file, ...AT, '--out', link], io)).toBe(2);
    expect(await readFile(file, 'utf8')).toBe(quince);
  });
});

describe('text to a file', () => {
  it('is the table with its notices, as on the terminal', async () => {
    const [shown, kept] = [world(FILES), world(FILES)];
    await main(['sun', 'q.json', ...AT], shown);
    await main(['sun', 'q.json', ...AT, '--out', 'sun.txt'], kept);
    expect(kept.files.get('sun.txt')).toBe(shown.text);
  });
  it('of two forms is one too many', async () => {
    const io = world(FILES);
    expect(await main(['parts', 'q.json', '--csv', '--json'], io)).toBe(2);
    expect(io.errors).toContain('expected one');
  });
});
