import { bench, describe } from 'vitest';
import { readWeather } from '../src/weather/read-weather';
import { epw, epwRow, hours } from '../test/weather/files';

/** A whole invented year as an EnergyPlus file, 1.4 MB: bytes to a checked series, target 150 ms. */
describe('an EPW of 8760 hours, target 150 ms', () => {
  const text = epw(hours().map((h) => epwRow(h)));
  const bytes = new TextEncoder().encode(text);
  const quoted = new TextEncoder().encode(text.replace('Invented Town', '"Invented Town"'));
  const read = (file: Uint8Array): void => {
    if (!readWeather(file).ok) throw new Error('the file of the bench is refused');
  };
  bench('bytes to a series', () => {
    read(bytes);
  });
  bench('the same with a quoted name in its header', () => {
    read(quoted);
  });
});
