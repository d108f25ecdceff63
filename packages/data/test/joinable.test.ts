import { describe, expect, it } from 'vitest';
import { headerTee } from '../src/headerTee';
import { endToEndGap_m, joinableOf, sameSize } from '../src/joinable';
import { pipes } from '../src/pipes';

const of = (id: string) => joinableOf(id)!;

describe('what joins pipes', () => {
  it('is known for every pipe of the table, and for no other', () => {
    for (const pipe of pipes) {
      const joint = of(pipe.id);
      expect(joint.pipe).toBe(pipe);
      for (const length of [joint.elbow_m, joint.socket_m, joint.coupling_m])
        expect(length).toBeGreaterThan(0);
      expect(joint.union_m).toBeGreaterThan(joint.coupling_m);
    }
    expect(joinableOf('pvc-sch40-9')).toBeUndefined();
  });

  it('takes the gap of a coupling between equal sizes, and the taper too between others, either way round', () => {
    const [two, one] = [of('pvc-sch40-2'), of('pvc-sch40-1-1/2')];
    expect(endToEndGap_m(two, two)).toBe(two.coupling_m);
    // 60.3 and 48.3 mm outside: 6 mm, and 2.4 mm of gap
    expect(endToEndGap_m(two, one)).toBeCloseTo(0.0084, 4);
    expect(endToEndGap_m(one, two)).toBe(endToEndGap_m(two, one));
    expect(sameSize(one, of('pvc-sch80-1-1/2'))).toBe(true);
    expect(sameSize(one, of('pvcu-pn10-50'))).toBe(false);
  });

  it('is a tee of the table for a header and its tube, whose own measure goes before it', () => {
    const [header, tube] = [of('pvc-sch40-1-1/2'), of('pvc-sch40-1/2')];
    const tee = headerTee(header, tube);
    expect(tee).toMatchObject({ part: 'reducingTee-1-1/2x1/2', made: true, branchNominal: '1/2' });
    expect(tee.run_m).toBeCloseTo(0.0122555, 9);
    const own = headerTee(header, tube, { [tee.part]: { takeOff_m: 0.014 } });
    expect(own).toMatchObject({ run_m: 0.014, known: 'measured' });
    // what was measured for one design stays with it
    expect(headerTee(header, tube).run_m).toBe(tee.run_m);
  });
});
